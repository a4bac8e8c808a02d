//! `tapmere serve`: the pages of a setup file, on the loopback of this machine.

use std::net::Ipv4Addr;

use quantity::Fault;
use setup::{MemoryShelf, Setup};
use tokio::net::TcpListener;

use super::{ALL, SOME, USAGE, fault, say};
use crate::socket::{self, Answer, Limits};
use crate::{files, house};

/// The pages.
#[derive(Debug, clap::Args)]
pub struct Args {
    /// Your setup file (TOML); docs/setup-file.md says what it may hold
    pub setup: Option<String>,
    /// Where they are opened
    #[command(flatten)]
    pub door: Door,
}

/// Where the pages are opened.
#[derive(Debug, clap::Args)]
pub struct Door {
    /// Port on 127.0.0.1; 0 takes a free one
    #[arg(long, default_value_t = 0)]
    pub port: u16,
}

/// Open the pages of a file.
pub fn run(args: &Args) -> u8 {
    match files::setup(args.setup.as_deref()) {
        Ok(setup) => open_setup(setup, &args.door),
        Err(faults) => fault(&faults, if args.setup.is_none() { USAGE } else { SOME }),
    }
}

/// Serve a setup until Ctrl-C.
pub fn open_setup(setup: Setup, door: &Door) -> u8 {
    let kept = "What you change there is kept in memory and forgotten at the end; the file stays as it is.";
    open_door(house::open(MemoryShelf::of(setup)), door, kept)
}

/// Serve a house until Ctrl-C; `kept` says what becomes of a change.
pub fn open_door(house: Answer, door: &Door, kept: &str) -> u8 {
    let runtime = match tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build() {
        Ok(runtime) => runtime,
        Err(e) => return fault(&Fault::new(format!("no threads for the pages: {e}")), SOME),
    };
    runtime.block_on(async {
        let listener = match TcpListener::bind((Ipv4Addr::LOCALHOST, door.port)).await {
            Ok(listener) => listener,
            Err(e) => return fault(&taken(door.port, &e), SOME),
        };
        let port = listener.local_addr().map_or(door.port, |a| a.port());
        let where_it_is = format!(
            "The pages are open at http://127.0.0.1:{port}/ for browsers of this machine alone.\n\
             {kept}\n\
             Ctrl-C closes them.\n"
        );
        if say(&where_it_is, ALL) != ALL {
            return SOME;
        }
        let closing = async {
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        };
        match socket::serve(listener, house, Limits::default(), closing).await {
            Ok(()) => ALL,
            Err(e) => fault(&Fault::new(format!("the pages can't be served: {e}")), SOME),
        }
    })
}

fn taken(port: u16, error: &std::io::Error) -> Fault {
    Fault::new(format!("port {port} can't be opened: {error}")).hint("leave --port out: then a free one is taken")
}
