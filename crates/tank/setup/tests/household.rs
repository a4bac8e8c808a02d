//! The invented household of `examples/` reads, and gives what its file says.

use setup::Setup;

#[test]
fn look() {
    let setup = Setup::read("tank.toml", include_str!("../../../../examples/household/tank.toml"))
        .unwrap_or_else(|f| panic!("{f}"));
    let tank = setup.tank().unwrap();
    println!("{:#?}", tank);
}
