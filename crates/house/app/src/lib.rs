//! The program `tapmere`: command line and loopback socket. Here the machine is asked for files, time and threads;
//! no science. `cli` defines the commands, `commands` holds one file for each, `batch` the batch of waters,
//! `letter` what the terminal says, `socket` and `house` the door to the pages, `place` where the keeper's book is.

pub mod batch;
pub mod cli;
pub mod clock;
pub mod commands;
pub mod files;
pub mod house;
mod leaves;
pub mod letter;
pub mod place;
pub mod plans;
pub mod reader;
pub mod socket;
