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
        let mut grey = Vec::with_capacity(width * height);
        for y in 0..height {
            let above = (top + y / 2) * self.width + left;
            let below = above + (y % 2) * self.width;
            for x in 0..width {
                let (one, next) = (x / 2, x / 2 + x % 2);
                let four = [above + one, above + next, below + one, below + next].map(|at| u32::from(self.grey[at]));
                grey.push(u8::try_from(four.iter().sum::<u32>() / 4).unwrap_or(u8::MAX));
            }
        }
        Self { grey, width, height }
    }

    /// What the first code says that stands there in such ink.
    pub(crate) fn found(&self, &Ink { reach_px: reach, percent }: &Ink) -> Option<String> {
        let Self { ref grey, width, height } = *self;
        if width.min(height) < SIDE_MIN_PX {
            return None;
        }
        // What lies above and to the left of each pixel, added up.
        let row = width + 1;
        let mut sums = vec![0_u32; row * (height + 1)];
        for (y, line) in grey.chunks_exact(width).enumerate() {
            let mut sum = 0;
            for (x, pixel) in line.iter().enumerate() {
                sum += u32::from(*pixel);
                sums[(y + 1) * row + x + 1] = sums[y * row + x + 1] + sum;
            }
        }
        let mut searched = rqrr::PreparedImage::prepare_from_bitmap(width, height, |x, y| {
            let (left, right) = (x.saturating_sub(reach), (x + reach + 1).min(width));
            let (top, bottom) = (y.saturating_sub(reach) * row, (y + reach + 1).min(height) * row);
            let sum = sums[bottom + right] + sums[top + left] - sums[top + right] - sums[bottom + left];
            let pixels = u32::try_from((right - left) * (bottom - top) / row).unwrap_or(u32::MAX);
            u32::from(grey[y * width + x]) * 100 * pixels < sum * percent
        });
        searched.detect_grids().iter().find_map(|grid| grid.decode().ok()).map(|(_, text)| text)
    }
}

fn quarters(before: u8, at: u8, after: u8) -> u8 {
    let sum = u16::from(before) + 2 * u16::from(at) + u16::from(after);
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
