//! Programmes whose answers are printed or follow by hand: published textbook examples (from memory), bounds, stages.

use recipe::programme::{Problem, Stage, Unsolved, lexicographic, minimise};

const INF: f64 = f64::INFINITY;

fn near(a: f64, b: f64) {
    assert!((a - b).abs() <= 1e-7 * b.abs().max(1.0), "{a} is not {b}");
}

/// Judge: Hillier & Lieberman, Introduction to Operations Research, the Wyndor Glass example (from memory): 36 at (2, 6).
#[test]
fn two_products_in_three_plants() {
    let mut p = Problem::new();
    let (doors, windows) = (p.amount("doors", 0.0, INF), p.amount("windows", 0.0, INF));
    p.row("plant 1", -INF, vec![(doors, 1.0)], 4.0);
    p.row("plant 2", -INF, vec![(windows, 2.0)], 12.0);
    p.row("plant 3", -INF, vec![(doors, 3.0), (windows, 2.0)], 18.0);
    let found = minimise(&p, &[(doors, -3.0), (windows, -5.0)], None, 100).unwrap();
    near(found.objective, -36.0);
    near(found.values[0], 2.0);
    near(found.values[1], 6.0);
}

/// Judge: Beale 1955, the example on which the plain simplex runs in a circle (from memory): -1/20 at (1/25, 0, 1, 0).
#[test]
fn it_does_not_run_in_a_circle() {
    let mut p = Problem::new();
    let x: Vec<usize> = (0..4).map(|i| p.amount(format!("x{i}"), 0.0, INF)).collect();
    let row = |k: [f64; 4]| x.iter().copied().zip(k).collect::<Vec<_>>();
    p.row("first", -INF, row([0.25, -60.0, -0.04, 9.0]), 0.0);
    p.row("second", -INF, row([0.5, -90.0, -0.02, 3.0]), 0.0);
    p.row("third", -INF, vec![(x[2], 1.0)], 1.0);
    let found = minimise(&p, &row([-0.75, 150.0, -0.02, 6.0]), None, 100).unwrap();
    near(found.objective, -0.05);
}

/// Judge: Klee & Minty 1972, three dimensions: 10 000 at (0, 0, 10 000).
#[test]
fn the_cube_that_makes_a_simplex_walk() {
    let mut p = Problem::new();
    let x: Vec<usize> = (0..3).map(|i| p.amount(format!("x{i}"), 0.0, INF)).collect();
    p.row("first", -INF, vec![(x[0], 1.0)], 1.0);
    p.row("second", -INF, vec![(x[0], 20.0), (x[1], 1.0)], 100.0);
    p.row("third", -INF, vec![(x[0], 200.0), (x[1], 20.0), (x[2], 1.0)], 10_000.0);
    let found = minimise(&p, &[(x[0], -100.0), (x[1], -10.0), (x[2], -1.0)], None, 100).unwrap();
    near(found.objective, -10_000.0);
}

/// Judge: Hillier & Lieberman, the California Manufacturing example of yes-or-no decisions (from memory): 14 at (1, 1, 0, 0).
#[test]
fn four_yes_or_no_decisions() {
    let mut p = Problem::new();
    let x: Vec<usize> = (0..4).map(|i| p.yes_or_no(format!("x{i}"))).collect();
    p.row("money", -INF, x.iter().copied().zip([6.0, 3.0, 5.0, 2.0]).collect(), 10.0);
    p.row("one warehouse", -INF, vec![(x[2], 1.0), (x[3], 1.0)], 1.0);
    p.row("there", -INF, vec![(x[0], -1.0), (x[2], 1.0)], 0.0);
    p.row("or there", -INF, vec![(x[1], -1.0), (x[3], 1.0)], 0.0);
    let costs: Vec<(usize, f64)> = x.iter().copied().zip([-9.0, -5.0, -6.0, -4.0]).collect();
    let found = minimise(&p, &costs, None, 100).unwrap();
    near(found.objective, -14.0);
    assert!(found.proved);
    assert_eq!(found.values, [1.0, 1.0, 0.0, 0.0]);
}

/// Judge: by hand. First as few as can be, then as cheap as can be among those, then the third thing.
#[test]
fn stages_keep_what_the_stages_before_reached() {
    let mut p = Problem::new();
    // Need 6: a brings 3 each up to 2, b 6 at once, c 1 each.
    let (a, b, c) = (p.amount("a", 0.0, 2.0), p.amount("b", 0.0, 1.0), p.amount("c", 0.0, 10.0));
    p.row("need", 6.0, vec![(a, 3.0), (b, 6.0), (c, 1.0)], INF);
    let used = p.used(&[a, b, c]);
    let stage = |name: &str, costs: Vec<(usize, f64)>| Stage { name: name.to_owned(), costs, nodes: 1000 };
    let count = stage("fewest", used.iter().map(|&u| (u, 1.0)).collect());
    // One is enough: a (2 for 2 × 1.5 = 3), b (1 for 4), c (6 for 6 × 0.4 = 2.4).
    let cost = stage("cost", vec![(a, 1.5), (b, 4.0), (c, 0.4)]);
    let settled = lexicographic(&p, &[count.clone(), cost]).unwrap();
    let reached: Vec<f64> = settled.stages.iter().map(|s| s.objective).collect();
    near(reached[0], 1.0);
    near(reached[1], 2.4);
    near(settled.values[c], 6.0);
    // With c limited to 5 it cannot stand alone, and a is next.
    p.columns[c].upper = 5.0;
    let settled = lexicographic(&p, &[count, stage("cost", vec![(a, 1.5), (b, 4.0), (c, 0.4)])]).unwrap();
    near(settled.stages[1].objective, 3.0);
    assert!(settled.stages.iter().all(|stage| stage.proved));
}

/// Judge: by hand.
#[test]
fn what_cannot_be_is_said() {
    let mut p = Problem::new();
    let (x, y) = (p.column("x", 0.0, 10.0, true), p.amount("y", 0.0, INF));
    assert_eq!(minimise(&p, &[(y, -1.0)], None, 100), Err(Unsolved::Unbounded));
    p.row("twice a whole number is no odd one", 7.0, vec![(x, 2.0)], 7.0);
    assert_eq!(minimise(&p, &[(x, 1.0)], None, 100), Err(Unsolved::Infeasible));
    p.rows.clear();
    p.row("no number", f64::NAN, vec![(x, 1.0), (y, f64::NAN)], INF);
    assert!(matches!(minimise(&p, &[(y, 1.0)], None, 100), Err(Unsolved::Numbers(_))));
}
