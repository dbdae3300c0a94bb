//! An order of places in which neighbors mostly follow one another: along Hilbert's curve, which fills a square.
//!
//! Cut into pieces it gives days whose wells lie close together, in one sorting, whatever the number of wells. A way along such a
//! curve is about a quarter longer than the shortest (Platzman and Bartholdi, J. ACM 36, 1989).

/// Steps of the square on each side: 2 to this power.
const ORDER: u32 = 16;

/// Where each place lies on the curve; nothing where it is not known. Places are degrees north and east.
pub(super) fn along(places: &[Option<(f64, f64)>]) -> Vec<Option<u64>> {
    let Some((_, middle)) = places.iter().flatten().next().copied() else { return vec![None; places.len()] };
    let known = places.iter().flatten().count() as f64;
    let north = places.iter().flatten().map(|(north, _)| north).sum::<f64>() / known;
    // Degrees east get shorter toward the poles; they are counted from one of the places, so that the date line divides nothing.
    let shrunk = north.to_radians().cos();
    let flat = |(north, east): (f64, f64)| ((east - middle + 540.0).rem_euclid(360.0) * shrunk, north);
    let flat: Vec<Option<(f64, f64)>> = places.iter().map(|place| place.map(flat)).collect();
    let bounds = |get: fn(&(f64, f64)) -> f64| {
        let values = flat.iter().flatten().map(get);
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
    };
    let (east, north) = (bounds(|place| place.0), bounds(|place| place.1));
    let extent = (east.1 - east.0).max(north.1 - north.0);
    let step = |value: f64, low: f64| {
        let most = f64::from((1_u32 << ORDER) - 1);
        if extent > 0.0 { ((value - low) / extent * most).round() as u32 } else { 0 }
    };
    flat.iter().map(|place| place.map(|(x, y)| distance(step(x, east.0), step(y, north.0)))).collect()
}

/// How far along the curve a point of the square lies.
fn distance(mut x: u32, mut y: u32) -> u64 {
    let mut along = 0;
    let mut side = 1_u32 << (ORDER - 1);
    while side > 0 {
        let (right, above) = (u32::from(x & side > 0), u32::from(y & side > 0));
        along += u64::from(side) * u64::from(side) * u64::from((3 * right) ^ above);
        // The quarter is turned so that its curve begins where the last one ended.
        if above == 0 {
            if right == 1 {
                x = (1 << ORDER) - 1 - x;
                y = (1 << ORDER) - 1 - y;
            }
            std::mem::swap(&mut x, &mut y);
        }
        side /= 2;
    }
    along
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_goes_from_neighbor_to_neighbor_and_through_every_point() {
        // A square of 32 by 32 points in the corner where the curve begins.
        let mut points: Vec<(u64, u32, u32)> =
            (0..32).flat_map(|x| (0..32).map(move |y| (distance(x, y), x, y))).collect();
        points.sort_unstable();
        assert!(points.iter().enumerate().all(|(at, (along, ..))| at as u64 == *along));
        assert!(points.windows(2).all(|pair| pair[0].1.abs_diff(pair[1].1) + pair[0].2.abs_diff(pair[1].2) == 1));
    }

    #[test]
    fn the_date_line_divides_nothing() {
        let places = [Some((0.0, 179.9)), Some((0.0, -179.9)), Some((0.0, 179.5)), None];
        let along = along(&places);
        // From west to east: 179.5, 179.9, -179.9, in this order or in the other.
        let order = [along[2], along[0], along[1]];
        assert!(order.is_sorted() || order.iter().rev().is_sorted(), "{order:?}");
        assert_eq!(along[3], None);
    }
}
