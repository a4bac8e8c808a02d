//! Every table of `data/` fits its type: no unknown key, nothing missing.

#[test]
fn every_table_reads() {
    if let Err(fault) = knowledge::Book::read() {
        panic!("\n{fault}");
    }
}
