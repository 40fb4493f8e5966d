//! Who could be whose buddy against networkx: as many served as its maximum flow serves, and nobody by whom they may not.

use shared_core::buddy::matching::most_served;

fn numbers(cell: &str) -> Vec<usize> {
    cell.split_whitespace().map(|number| number.parse().expect("a number")).collect()
}

#[test]
fn as_many_are_served_as_can_be() {
    let csv = include_str!("../data/buddy-matching.csv");
    let rows: Vec<&str> = csv.lines().filter(|line| !line.starts_with('#')).skip(1).collect();
    assert_eq!(rows.len(), 400);
    for row in rows {
        let [may, places, most] = row.split(',').collect::<Vec<_>>()[..] else { panic!("{row}") };
        let may: Vec<Vec<usize>> = may.split('|').map(numbers).collect();
        let places = numbers(places);
        let served_by = most_served(&may, &places);
        let served = served_by.iter().flatten().count();
        assert_eq!(served, most.parse::<usize>().expect("a count"), "{row}");
        for (asker, server) in served_by.iter().enumerate().filter_map(|(asker, server)| Some((asker, (*server)?))) {
            assert!(may[asker].contains(&server), "{row}: {asker} by {server}");
        }
        for (server, room) in places.iter().enumerate() {
            let used = served_by.iter().filter(|by| **by == Some(server)).count();
            assert!(used <= *room, "{row}: {server} serves {used}");
        }
    }
}
