//! Finite fields GF(2^n), n up to 8, for the error correction of QR codes (ISO/IEC 18004).
//!
//! Stands in for the crate of the same name, of which the code reader uses little and which multiplies through a table
//! of 64 KiB that no compression makes smaller: a fifth of what a phone may download. Here products are sums of
//! logarithms, in two tables of 256 bytes a field. Only what the code reader asks for is here, under the names it asks by.

use std::ops::{Add, AddAssign, Div, Mul, MulAssign};

/// A finite field of characteristic two.
pub trait GaloisField:
    Add<Output = Self> + AddAssign + Mul<Output = Self> + MulAssign + Div<Output = Self> + Copy + PartialEq
{
    /// Nothing.
    const ZERO: Self;
    /// The unit.
    const ONE: Self;
    /// The element whose powers are all the others: x.
    const GENERATOR: Self;

    /// This element multiplied `exponent` times.
    #[must_use]
    fn pow(self, exponent: usize) -> Self;
}

/// The powers of x and, for each element but zero, which power it is.
#[must_use]
pub const fn tables(bits: u32, modulus: u16) -> ([u8; 256], [u8; 256]) {
    let (mut power, mut log) = ([0; 256], [0; 256]);
    let (mut element, mut exponent) = (1_u16, 0_u8);
    loop {
        #[expect(clippy::cast_possible_truncation, reason = "an element of at most eight bits")]
        {
            power[exponent as usize] = element as u8;
        }
        log[element as usize] = exponent;
        element <<= 1;
        if element >> bits & 1 == 1 {
            element ^= modulus;
        }
        if element == 1 {
            return (power, log);
        }
        exponent += 1;
    }
}

/// The sum of two elements: of polynomials over two, so without carries.
#[must_use]
pub const fn sum(one: u8, other: u8) -> u8 {
    one ^ other
}

/// Defines the field `$name` of `2^$bits` elements over a primitive polynomial.
#[macro_export]
macro_rules! g2p {
    ($name:ident, $bits:literal, modulus: $modulus:literal) => {
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(crate) struct $name(pub(crate) u8);

        impl $name {
            const UNITS: usize = (1 << $bits) - 1;
            const TABLES: ([u8; 256], [u8; 256]) = $crate::tables($bits, $modulus);

            fn power(exponent: usize) -> Self {
                static POWER: [u8; 256] = $name::TABLES.0;
                Self(POWER[exponent % Self::UNITS])
            }

            fn log(self) -> usize {
                static LOG: [u8; 256] = $name::TABLES.1;
                usize::from(LOG[usize::from(self.0)])
            }
        }

        impl $crate::GaloisField for $name {
            const ZERO: Self = Self(0);
            const ONE: Self = Self(1);
            const GENERATOR: Self = Self(2);

            fn pow(self, exponent: usize) -> Self {
                match (self.0, exponent) {
                    (_, 0) => Self(1),
                    (0, _) => self,
                    _ => Self::power(self.log() * (exponent % Self::UNITS)),
                }
            }
        }

        impl ::std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self($crate::sum(self.0, other.0))
            }
        }

        impl ::std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }

        impl ::std::ops::Mul for $name {
            type Output = Self;
            fn mul(self, other: Self) -> Self {
                if self.0 == 0 || other.0 == 0 { Self(0) } else { Self::power(self.log() + other.log()) }
            }
        }

        impl ::std::ops::MulAssign for $name {
            fn mul_assign(&mut self, other: Self) {
                *self = *self * other;
            }
        }

        impl ::std::ops::Div for $name {
            type Output = Self;
            /// Dividing by zero answers zero; the code reader never does.
            fn div(self, other: Self) -> Self {
                if self.0 == 0 || other.0 == 0 {
                    return Self(0);
                }
                Self::power(self.log() + Self::UNITS - other.log())
            }
        }
    };
}

#[cfg(test)]
mod tests {
    use super::GaloisField;

    g2p!(Small, 4, modulus: 0b1_0011);
    g2p!(Large, 8, modulus: 0b1_0001_1101);

    /// Multiplication of polynomials, bit by bit.
    fn plainly(mut a: u16, b: u16, bits: u32, modulus: u16) -> u16 {
        let mut product = 0;
        for bit in 0..bits {
            if b >> bit & 1 == 1 {
                product ^= a;
            }
            a <<= 1;
            if a >> bits & 1 == 1 {
                a ^= modulus;
            }
        }
        product
    }

    /// The fields of ISO/IEC 18004 (from memory): format information over x^4 + x + 1, data over x^8 + x^4 + x^3 + x^2 + 1.
    #[test]
    fn every_product_quotient_and_power_is_that_of_polynomials() {
        for a in 0..=255_u8 {
            for b in 0..=255_u8 {
                let product = (Large(a) * Large(b)).0;
                assert_eq!(u16::from(product), plainly(a.into(), b.into(), 8, 0b1_0001_1101));
                if b != 0 {
                    assert_eq!(Large(product) / Large(b), Large(a));
                }
                if a < 16 && b < 16 {
                    assert_eq!(u16::from((Small(a) * Small(b)).0), plainly(a.into(), b.into(), 4, 0b1_0011));
                }
            }
            let mut power = Large::ONE;
            for exponent in 0..300 {
                assert_eq!(Large(a).pow(exponent), power, "{a} to the {exponent}");
                power *= Large(a);
            }
        }
        assert_eq!((Small::GENERATOR + Small::ONE, Small::ZERO.pow(3)), (Small(3), Small(0)));
    }
}
