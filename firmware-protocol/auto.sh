#!/bin/sh
# What Maven calls: builds and tries the firmware in a folder, or says why it cannot.
set -eu
cd -- "$(dirname -- "$0")"

if ! command -v make > /dev/null; then
  echo "SKIPPED the firmware: make is not on the PATH"
  if [ "${JOINTWALK_REQUIRE:-}" = all ]; then
    exit 1
  fi
  exit 0
fi
make --no-print-directory auto OUT="$1"
