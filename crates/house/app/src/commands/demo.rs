//! `tapmere demo`: the invented household, its plan here and its pages in the browser.

use super::serve::{Door, open_setup};
use super::{ALL, SOME, dose, fault, say};
use crate::files;

/// The demo.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// Print the plan and exit, without opening the pages
    #[arg(long)]
    pub print: bool,
    /// Where the pages are opened
    #[command(flatten)]
    pub door: Door,
}

/// Print the plan, then serve the pages.
pub fn run(args: &Args) -> u8 {
    let setup = match files::demo() {
        Ok(setup) => setup,
        Err(faults) => return fault(&faults, SOME),
    };
    let text = match recipe::answer(&setup) {
        Ok(answer) => dose::text(&answer, false),
        Err(faults) => return fault(&faults, SOME),
    };
    let said = say(&format!("An invented household ({}).\n\n{text}\n", files::DEMO.0), ALL);
    if args.print || said != ALL {
        return said;
    }
    open_setup(setup, &args.door)
}
