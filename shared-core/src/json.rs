//! Reading plain JSON into types, small on a phone.
//!
//! What derived readers would do in tens of kilobytes (a visitor for each type), one small function for each field does
//! here from a value that has been read already: the shop's bundle, the hub's answers, the phone's own journal. Unknown fields are ignored; a missing one
//! is read as null, which options, lists, maps and flags take as none. The wire is the same: what is derived for
//! writing is read here, and a test holds the two together.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer};
use serde_json::Value;

use crate::ordered::Map;
use crate::time::Instant;

/// What was expected where something else stood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0} is missing or not what it should be")]
pub struct Unfit(pub &'static str);

/// A type that is read from a JSON value.
pub trait FromJson: Sized {
    /// Reads it; says what did not fit.
    fn from_json(value: &Value) -> Result<Self, Unfit>;
}

/// The field `name` of an object.
pub fn field<T: FromJson>(object: &Value, name: &'static str) -> Result<T, Unfit> {
    T::from_json(object.get(name).unwrap_or(&Value::Null)).map_err(|_| Unfit(name))
}

/// The field `name` of an object, or nothing in particular where it is missing.
pub fn field_or_default<T: FromJson + Default>(object: &Value, name: &'static str) -> Result<T, Unfit> {
    field::<Option<T>>(object, name).map(Option::unwrap_or_default)
}

/// Lets serde read what is read from a JSON value: nothing of a visitor is compiled for the type.
#[macro_export]
macro_rules! read_as_json {
    ($($type:ident),* $(,)?) => {$(
        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let value = serde_json::Value::deserialize(from)?;
                $crate::json::FromJson::from_json(&value).map_err(serde::de::Error::custom)
            }
        }
    )*};
}

/// Reads a struct field by field, and lets serde read it the same way.
#[macro_export]
macro_rules! from_json {
    ($($type:ident { $($field:ident),* $(,)? })*) => {$(
        impl $crate::json::FromJson for $type {
            fn from_json(value: &serde_json::Value) -> Result<Self, $crate::json::Unfit> {
                Ok(Self { $($field: $crate::json::field(value, stringify!($field))?),* })
            }
        }

        $crate::read_as_json!($type);
    )*};
}
pub use from_json;
pub use read_as_json;

/// A whole number may be written `7.0`: to JSON it is the same.
struct Whole(u64);

/// Below this every whole number is a double of its own.
const EXACT: f64 = 9_007_199_254_740_992.0;

impl<'de> Deserialize<'de> for Whole {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let number = serde_json::Number::deserialize(from)?;
        let whole = number.as_f64().filter(|number| number.fract() == 0.0 && (0.0..EXACT).contains(number));
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "it is whole and in range")]
        let read = whole.map(|whole| Self(whole as u64));
        read.ok_or_else(|| D::Error::custom("a whole number from 0 is expected"))
    }
}

/// For serde: a whole number from 0, of any program's writing.
pub fn whole_number<'de, D: Deserializer<'de>, T: TryFrom<u64>>(from: D) -> Result<T, D::Error> {
    let Whole(number) = Whole::deserialize(from)?;
    T::try_from(number).map_err(|_| D::Error::custom("a smaller number is expected"))
}

/// For serde: a list of them.
pub fn whole_numbers<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<u64>, D::Error> {
    let numbers = Vec::<Whole>::deserialize(from)?;
    Ok(numbers.into_iter().map(|Whole(number)| number).collect())
}

impl FromJson for String {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        value.as_str().map(Self::from).ok_or(Unfit("text"))
    }
}

impl FromJson for bool {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        if value.is_null() { Ok(false) } else { value.as_bool().ok_or(Unfit("a flag")) }
    }
}

impl FromJson for f64 {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        value.as_f64().ok_or(Unfit("a number"))
    }
}

impl FromJson for i64 {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        value.as_i64().ok_or(Unfit("a whole number"))
    }
}

impl FromJson for i32 {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        i64::from_json(value).and_then(|number| number.try_into().map_err(|_| Unfit("a small number")))
    }
}

impl FromJson for u64 {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        value.as_u64().ok_or(Unfit("a whole number from 0"))
    }
}

impl FromJson for u32 {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        i64::from_json(value).and_then(|number| number.try_into().map_err(|_| Unfit("a small number")))
    }
}

impl FromJson for Instant {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        value.as_str().and_then(Self::parse).ok_or(Unfit("an instant"))
    }
}

impl<T: FromJson> FromJson for Option<T> {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        if value.is_null() { Ok(None) } else { T::from_json(value).map(Some) }
    }
}

impl<T: FromJson> FromJson for Vec<T> {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        match value {
            Value::Null => Ok(Self::new()),
            Value::Array(items) => items.iter().map(T::from_json).collect(),
            _ => Err(Unfit("a list")),
        }
    }
}

impl<T: FromJson> FromJson for Map<String, T> {
    fn from_json(value: &Value) -> Result<Self, Unfit> {
        match value {
            Value::Null => Ok(Self::new()),
            Value::Object(fields) => {
                fields.iter().map(|(key, value)| Ok((key.clone(), T::from_json(value)?))).collect()
            }
            _ => Err(Unfit("a table")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::members::Members;
    use crate::rulebook::Rulebook;
    use crate::testing;

    #[test]
    fn what_is_written_is_read_again() {
        let (book, members) = (testing::book(), testing::members());
        let text = serde_json::to_string(&book).expect("plain data");
        assert_eq!(serde_json::from_str::<Rulebook>(&text).expect("reads"), book);
        assert_eq!(Members::from_json(&serde_json::to_value(&members).expect("plain data")), Ok(members));
    }

    #[cfg(feature = "toml")]
    #[test]
    fn the_demo_rulebook_is_read_again() {
        let (book, _) = crate::rulebook::parse::read(include_str!("../../hub/demo/shop.toml"));
        let book = book.expect("the demo rulebook");
        let text = serde_json::to_string(&book).expect("plain data");
        assert_eq!(serde_json::from_str::<Rulebook>(&text).expect("reads"), book);
    }

    #[test]
    fn what_does_not_fit_is_named_and_what_is_new_is_passed_over() {
        let mut book = serde_json::to_value(testing::book()).expect("plain data");
        book["from_a_newer_hub"] = 1.into();
        assert!(Rulebook::from_json(&book).is_ok());
        book["machines"][0]["name"] = 7.into();
        assert_eq!(Rulebook::from_json(&book), Err(Unfit("machines")));
        for text in ["null", "[]", "7", "{}"] {
            assert!(serde_json::from_str::<Rulebook>(text).is_err(), "{text}");
        }
        assert_eq!(Members::from_json(&Value::Null), Ok(Members::default()));
    }
}
