#!/bin/sh
# Walks a few thousand steps through a port and ends what it started.
#   walk.sh pty DIRECTORY | walk.sh analog DIRECTORY | walk.sh qemu DIRECTORY [option of QEMU]... |
#   walk.sh watchdog DIRECTORY
set -eu

port=$1
out=$2
shift 2
work=$(mktemp -d)
fixture=
trap 'if [ -n "$fixture" ]; then kill "$fixture" 2>/dev/null || true; fi; rm -rf "$work"' EXIT

case $port in
  pty)
    echo '1 2 0.07' > "$work/table"
    "$out/fixture-pty" --link "$work/line" --table "$work/table" > "$work/path" &
    fixture=$!
    "$out/client" "$work/line" --steps 50000 --kind 4
    ;;
  analog)
    "$out/client" "$work/line" --listen "$work/analog" --steps 5000 --kind 4 &
    client=$!
    until [ -S "$work/analog" ]; do sleep 0.05; done
    "$out/fixture-pty" --link "$work/line" --analog "$work/analog" > "$work/path" &
    fixture=$!
    wait "$client"
    ;;
  qemu)
    qemu-system-arm -M mps2-an385 -display none -monitor none -no-reboot "$@" \
      -kernel "$out/fixture-an385.elf" \
      -chardev "socket,id=line,path=$work/line,server=on,wait=off" -serial chardev:line \
      -chardev "socket,id=analog,path=$work/analog,server=on,wait=on" -serial chardev:analog \
      2> "$work/said" &
    fixture=$!
    "$out/client" "$work/line" --connect "$work/analog" --steps 1000 --kind 4 --seconds 90
    ;;
  watchdog)
    # An image whose loop does not feed the watchdog: QEMU ends with the reset (M83).
    if ! timeout 3 qemu-system-arm -M mps2-an385 -display none -monitor none -no-reboot \
      -kernel "$out/fixture-unfed.elf" -serial null -serial null; then
      echo "walk.sh: the watchdog did not reset a hung loop within 3 s" >&2
      exit 1
    fi
    echo "an unfed watchdog resets"
    ;;
  *)
    echo "walk.sh: no such port: $port" >&2
    exit 2
    ;;
esac
