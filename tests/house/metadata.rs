//! What cargo knows of this workspace and of all that it takes in.

use std::process::Command;

use serde_json::Value;

/// What cargo knows, for the machine that the tests run on: packages that only another system
/// needs are not downloaded here, and cargo must not ask the network.
pub(crate) fn read() -> Result<Value, String> {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| String::from("cargo"));
    let output = Command::new(cargo)
        .args(["metadata", "--offline", "--format-version", "1"])
        .args(["--filter-platform", "host-tuple"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .map_err(|error| format!("cargo cannot be run: {error}"))?;
    if !output.status.success() {
        let said = String::from_utf8_lossy(&output.stderr);
        return Err(format!(
            "cargo metadata failed (would `cargo fetch` help?):\n{said}"
        ));
    }
    serde_json::from_slice(&output.stdout)
        .map_err(|error| format!("cargo metadata is not JSON: {error}"))
}

/// The entries of a list; none if there is no such list.
pub(crate) fn list<'v>(value: &'v Value, key: &str) -> &'v [Value] {
    value[key].as_array().map_or(&[], Vec::as_slice)
}

/// A text; empty if there is no such text.
pub(crate) fn text<'v>(value: &'v Value, key: &str) -> &'v str {
    value[key].as_str().unwrap_or_default()
}
