#!/usr/bin/env bash
# From a fresh Debian 12 to a printed startup card: installs what is missing, builds, prints.
set -euo pipefail
cd "$(dirname "$0")/.."
source tests/packages.sh

install_packages build
# A build folder that already has the tests keeps them; a new one does without their packages.
tests=()
[ -f build/CMakeCache.txt ] || tests=(-DTUB_TESTS=OFF)
run_quietly build/configure.log cmake --preset release "${tests[@]}"
run_quietly build/build.log cmake --build build --target tubwright

job=examples/quince-row.json
build/tubwright print "$job" --out build/first-card.pdf
build/tubwright print "$job" --out build/first-card.png   # a picture a page

echo "The first card is printed:"
echo "  build/first-card.pdf  to print at 100 %"
echo "  build/first-card-1.png and the following  to look at"
echo "It comes from $job. Next, a card for a tub of your own:"
echo "  build/tubwright new --out my-tub.json     # then put your test slip's readings in"
echo "  build/tubwright check my-tub.json"
echo "  build/tubwright print my-tub.json --out my-card.pdf"
