//! A picture of grey values, made anew for one look or another, and searched.
//!
//! Whatever is asked of a picture that is too small for it is answered with what there is: no size is a fault.

/// The finder wants room: nothing smaller is searched.
const SIDE_MIN_PX: usize = 21;
/// So much of each side is left out at both ends of the middle.
const MIDDLE_FROM: (usize, usize) = (1, 5);

/// What is ink: darker than so many hundredths of the mean of the pixels so far around it.
pub(crate) struct Ink {
    pub(crate) reach_px: usize,
    pub(crate) percent: u32,
}

/// Grey values, row by row.
pub struct Picture {
    grey: Vec<u8>,
    width: usize,
    height: usize,
}

impl Picture {
    /// Of grey values; `None` if there are not as many as there should be.
    pub fn of_grey(grey: Vec<u8>, width: usize, height: usize) -> Option<Self> {
        (width.checked_mul(height) == Some(grey.len())).then_some(Self { grey, width, height })
    }

    /// Of red, green, blue and opacity, as a browser hands them out: their brightness (ITU-R BT.601, in 256ths).
    pub fn of_rgba(rgba: &[u8], width: usize, height: usize) -> Option<Self> {
        let brightness = |pixel: &[u8; 4]| {
            let [red, green, blue, _] = pixel.map(u32::from);
            u8::try_from((red * 77 + green * 150 + blue * 29) >> 8).unwrap_or(u8::MAX)
        };
        Self::of_grey(rgba.as_chunks().0.iter().map(brightness).collect(), width, height)
    }

    /// Each pixel with its neighbours, by quarters and halves, one way and then the other.
    pub(crate) fn smoothed(&self) -> Self {
        let (mut rows, width) = (self.grey.clone(), self.width);
        for (smooth, row) in rows.chunks_exact_mut(width.max(1)).zip(self.grey.chunks_exact(width.max(1))) {
            for (pixel, near) in smooth.iter_mut().skip(1).zip(row.windows(3)) {
                *pixel = quarters(near[0], near[1], near[2]);
            }
        }
        let mut grey = rows.clone();
        for at in width..rows.len().saturating_sub(width) {
            grey[at] = quarters(rows[at - width], rows[at], rows[at + width]);
        }
        Self { grey, ..*self }
    }

    /// The middle, with a pixel between any two.
    pub(crate) fn middle_doubled(&self) -> Self {
        let (of, parts) = MIDDLE_FROM;
        let (left, top) = (self.width * of / parts, self.height * of / parts);
        let [wide, high] = [self.width - 2 * left, self.height - 2 * top];
        let (width, height) = ((2 * wide).saturating_sub(1), (2 * high).saturating_sub(1));
        let row = |y: usize| &self.grey[(top + y) * self.width + left..][..wide];
        let mut grey = Vec::with_capacity(width * height);
        for y in 0..height {
            // Two pixels, one above the other, or one twice: then two of these beside each other, or one twice.
            let pairs =
                row(y / 2).iter().zip(row(y / 2 + y % 2)).map(|(above, below)| u16::from(*above) + u16::from(*below));
            let mut last = None;
            for pair in pairs {
                grey.extend(last.map(|last: u16| quarter(last + pair)));
                grey.push(quarter(2 * pair));
                last = Some(pair);
            }
        }
        Self { grey, width, height }
    }

    /// What the first code says that stands there in such ink.
    pub(crate) fn found(&self, ink: &Ink) -> Option<String> {
        if self.width.min(self.height) < SIDE_MIN_PX {
            return None;
        }
        let inked = self.inked(ink);
        let mut searched =
            rqrr::PreparedImage::prepare_from_bitmap(self.width, self.height, |x, y| inked[y * self.width + x]);
        searched.detect_grids().iter().find_map(|grid| grid.decode().ok()).map(|(_, text)| text)
    }

    /// Whether each pixel is ink. A square that is as large as the reach goes along each row, and takes up and gives back whole columns.
    fn inked(&self, &Ink { reach_px: reach, percent }: &Ink) -> Vec<bool> {
        let Self { ref grey, width, height } = *self;
        let mut inked = Vec::with_capacity(grey.len());
        // Of each column what is within reach of the row, added up.
        let mut columns = vec![0_u32; width];
        let (mut entering, mut leaving) = (grey.chunks_exact(width), grey.chunks_exact(width));
        let add = |columns: &mut [u32], line: &[u8]| {
            columns.iter_mut().zip(line).for_each(|(column, pixel)| *column += u32::from(*pixel));
        };
        entering.by_ref().take(reach).for_each(|line| add(&mut columns, line));
        for (y, line) in grey.chunks_exact(width).enumerate() {
            if let Some(line) = entering.next() {
                add(&mut columns, line);
            }
            if y > reach
                && let Some(line) = leaving.next()
            {
                columns.iter_mut().zip(line).for_each(|(column, pixel)| *column -= u32::from(*pixel));
            }
            let rows = (y + reach + 1).min(height) - y.saturating_sub(reach);
            let hundred = 100 * u32::try_from(rows).unwrap_or(u32::MAX);
            let (mut entering, mut leaving) = (columns.iter(), columns.iter());
            let (mut sum, mut hundreds) = (0, 0);
            for column in entering.by_ref().take(reach) {
                (sum, hundreds) = (sum + column, hundreds + hundred);
            }
            for (x, pixel) in line.iter().enumerate() {
                if let Some(column) = entering.next() {
                    (sum, hundreds) = (sum + column, hundreds + hundred);
                }
                if x > reach
                    && let Some(column) = leaving.next()
                {
                    (sum, hundreds) = (sum - column, hundreds - hundred);
                }
                inked.push(u32::from(*pixel) * hundreds < sum * percent);
            }
        }
        inked
    }
}

fn quarters(before: u8, at: u8, after: u8) -> u8 {
    quarter(u16::from(before) + 2 * u16::from(at) + u16::from(after))
}

fn quarter(sum: u16) -> u8 {
    u8::try_from(sum / 4).unwrap_or(u8::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Look, read};

    #[test]
    fn pictures_of_any_size_are_looked_at() {
        for (width, height) in [(0, 0), (0, 9), (1, 1), (2, 1), (1, 70), (20, 21), (21, 21), (64, 48), (33, 70)] {
            for shade in [0, 128, 255] {
                let picture =
                    Picture::of_grey(vec![shade; width * height], width, height).expect("as many as it should");
                for look in Look::ALL {
                    assert_eq!(read(&picture, look), None, "{width} by {height}, {shade}, {look:?}");
                }
            }
        }
        assert!(Picture::of_grey(vec![0; 9], 2, 5).is_none());
        assert!(Picture::of_rgba(&[0; 39], 5, 2).is_none());
    }

    /// Beside the definition: each pixel against the mean of those within reach, added up one by one.
    #[test]
    fn ink_is_what_is_darker_than_the_mean_around_it() {
        for (width, height, reach_px) in [(21, 21, 0), (21, 30, 3), (40, 22, 12), (25, 25, 24), (25, 22, 60)] {
            let mut chance = 7_u32;
            let grey: Vec<u8> = std::iter::repeat_with(|| {
                chance = chance.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                chance.to_be_bytes()[0]
            })
            .take(width * height)
            .collect();
            let is_ink = |at: usize, percent: u32| {
                let (x, y) = (at % width, at / width);
                let (left, right) = (x.saturating_sub(reach_px), (x + reach_px).min(width - 1));
                let (top, bottom) = (y.saturating_sub(reach_px), (y + reach_px).min(height - 1));
                let near = (top..=bottom).flat_map(|y| (left..=right).map(move |x| (x, y)));
                let (sum, pixels) =
                    near.fold((0, 0), |(sum, pixels), (x, y)| (sum + u32::from(grey[y * width + x]), pixels + 1));
                u32::from(grey[at]) * 100 * pixels < sum * percent
            };
            let picture = Picture::of_grey(grey.clone(), width, height).expect("as many as it should");
            for percent in [90, 98] {
                let told = picture.inked(&Ink { reach_px, percent });
                let wanted: Vec<bool> = (0..grey.len()).map(|at| is_ink(at, percent)).collect();
                assert_eq!(told, wanted, "{width} by {height}, {reach_px} px, {percent} in 100");
            }
        }
    }

    #[test]
    fn a_picture_is_made_anew_as_it_says() {
        let rgba: Vec<u8> = [0, 40, 255].into_iter().flat_map(|grey| [grey, grey, grey, 255]).collect();
        let picture = Picture::of_rgba(&[&rgba[..], &rgba].concat(), 3, 2).expect("six pixels");
        assert_eq!(picture.grey, [0, 40, 255, 0, 40, 255]);
        assert_eq!(Picture::of_rgba(&[255, 0, 0, 9], 1, 1).map(|red| red.grey), Some(vec![76]));
        let rows = Picture::of_grey(vec![0, 40, 80, 40, 80, 0, 80, 0, 40], 3, 3).expect("nine pixels");
        assert_eq!(rows.smoothed().grey, [0, 40, 80, 40, 42, 30, 80, 30, 40]);
        assert_eq!(rows.middle_doubled().grey[..10], [0, 20, 40, 60, 80, 20, 40, 60, 50, 40]);
    }
}
