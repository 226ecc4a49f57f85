#!/usr/bin/env bash
# Installs what is missing, builds with warnings as errors, runs every test, prints one summary line.
set -euo pipefail
cd "$(dirname "$0")/.."
source tests/packages.sh

install_packages build tests
run_quietly build/configure.log cmake --preset release -DTUB_TESTS=ON
run_quietly build/build.log cmake --build build

log=build/tests.log
status=0
ctest --test-dir build --output-on-failure --no-tests=error -j "$(nproc)" >"$log" 2>&1 || status=$?
total=$(sed -n 's/.*tests failed out of \([0-9]*\)$/\1/p' "$log")
failed=$(sed -n 's/.* \([0-9]*\) tests failed out of [0-9]*$/\1/p' "$log")
if [ -z "$total" ]; then
  tail -n 60 "$log" >&2
  echo "the tests did not finish; the whole output is in $log" >&2
  exit 1
fi
if [ "$status" -ne 0 ]; then
  sed -n '/\*\*\*Failed\|\*\*\*Exception\|\*\*\*Timeout/,/^ *Start\|^$/p' "$log" | head -n 200 >&2
  sed -n '/The following tests FAILED/,$p' "$log" >&2
fi
echo "tests: $((total - failed)) passed, $failed failed"
exit "$status"
