//! Requests to pages: a service without a socket. [`House::answer`] turns a request into a whole response, over a
//! [`setup::Shelf`] of tanks that is handed in; nothing else is asked of the machine.
//!
//! A page is a letter with blanks: sentences whose underlined numbers are changed where they stand. The way of a
//! change: `post` compares each blank, as text, with what the letter's revision showed; what differs is written as
//! the next revision; the reader is sent to the letter again.

mod act;
mod advice;
mod answers;
mod away;
mod blank;
mod care;
mod ctx;
mod drawing;
mod first;
mod help_now;
mod house;
mod letters;
mod log;
mod measure;
mod more;
mod parts;
mod plain;
mod post;
mod respond;
mod routes;
mod salts;
mod sheet;
mod signs;
mod start;
mod tank;
mod tap;
mod wait;
mod words;

pub use advice::between as advice_between;
pub use blank::Blank;
pub use ctx::{Ctx, Today};
pub use house::House;
pub use routes::{beside, stands_alone};
pub use tap::report::{Uploaded, is_upload, upload};
