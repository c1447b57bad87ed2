#!/bin/sh
# Takes one line at a time out of a copy of the core and sees that the fuzzer finds it, each within a
# minute. What it is given: a folder to work in, the compiler, and
# if not all are wanted a part of a name.
set -eu

out=$1
clang=$2
only=${3:-}
here=$(cd -- "$(dirname -- "$0")/.." && pwd)

# File, what is replaced, by what: the guards of M38, M52, M43, M46, M80 and of the table in 11.
plant() {
  name=$1
  file=$2
  case $name in *"$only"*) ;; *) return 0 ;; esac
  rm -rf "$out/plant"
  mkdir -p "$out/plant/corpus"
  cp -r "$here/core" "$here/ports" "$here/tests" "$out/plant"
  sed "$3" "$here/core/$file" > "$out/plant/core/$file"
  if cmp -s "$here/core/$file" "$out/plant/core/$file"; then
    echo "plants.sh: $name: nothing was replaced in $file" >&2
    exit 2
  fi
  cd "$out/plant"
  "$clang" -std=c99 -g -O1 -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=all \
    -DFX_CHANNELS=24 -DFX_STEPS=16 -DFAKE_FRAMES=32 \
    core/*.c ports/table.c tests/fake.c tests/fuzz.c -o fuzz
  begun=$(date +%s)
  if ./fuzz -max_total_time=60 -max_len=1024 corpus > said 2>&1; then
    echo "plants.sh: $name was not found in a minute" >&2
    exit 1
  fi
  echo "$name: found after $(($(date +%s) - begun)) s"
}

plant "channels beyond the last" fx_declare.c \
  's/(uint32_t)first + count > core->config->channels/count > 474/'
plant "more steps than fit" fx_stream.c \
  's/run->loaded - run->done + count > core->config->steps/count == 0/'
plant "channels that were not declared" fx_check.c 's/  if (t.undeclared) {/  if (t.twice > 1) {/'
plant "a source that stays on while switches move" fx_meter.c \
  's/^  fx_meter_off(core, reader);$/  (void)reader;/'
plant "a host that died" fx_inputs.c 's/>= 1000000u/>= 9000000u/'
plant "ten times the current into a signal" fx_check.c \
  's|t->signal ? MOST_AMP / 10 : MOST_AMP|MOST_AMP|'
