#!/usr/bin/env bash
# Links a module over the pages for wasm32-unknown-unknown and asserts that it imports nothing: a check that only
# compiles would miss a crate that asks the host for the time.
#
# Uses the toolchain's own target where it is installed (`rustup target add wasm32-unknown-unknown`), else Debian's
# packages: rustc-web, cargo-web, rust-web-src, lld, clang-14.
set -euo pipefail
cd "$(dirname "$0")/.."
top=$PWD
cd ci/imports-nothing
target=wasm32-unknown-unknown
export CARGO_INCREMENTAL=0 CARGO_TARGET_DIR="${CARGO_TARGET_DIR:-$top/target}/wasm"

# The reader of modules is a plain program of this machine.
cargo test --quiet --bin imports
cargo build --quiet --bin imports

if [ -d "$(rustc --print sysroot)/lib/rustlib/$target/lib" ]; then
    cargo build --release --lib --target "$target"
elif [ -x /usr/bin/cargo ] && command -v wasm-ld >/dev/null; then
    # Debian's toolchain brings the sources of std instead of a compiled one.
    PATH=/usr/bin:$PATH RUSTC_BOOTSTRAP=1 CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER=wasm-ld \
        RUSTFLAGS="-C target-feature=+simd128" \
        cargo build --release --lib --target "$target" -Zbuild-std=std,panic_abort
else
    echo "no target $target: rustup target add $target, or apt-get install rustc-web cargo-web rust-web-src lld" >&2
    exit 1
fi
"$CARGO_TARGET_DIR/debug/imports" "$CARGO_TARGET_DIR/$target/release/imports_nothing.wasm"
