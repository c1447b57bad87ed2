#!/bin/sh
# Builds the firmware once for each entry of broken.txt, with its lines replaced in a copy of the
# core. The core itself has no switch that could break a fixture by accident.
#   broken.sh OUT "COMPILER FLAGS" "MORE SOURCES" SOURCE [NAME]
set -eu

out=$1
cc=$2
more="$3 $4"
only=${5:-}
here=$(cd -- "$(dirname -- "$0")/.." && pwd)
case $out in /*) ;; *) out=$PWD/$out ;; esac
rm -rf "$out"
mkdir -p "$out/sound" "$out/parts"
cd "$here"

for source in core/*.c $more; do
  $cc -c "$source" -o "$out/sound/$(basename "$(dirname "$source")")-$(basename "$source" .c).o"
done

# One file a change: name, source file, old text, new text, each on a line of its own.
awk -v parts="$out/parts" -v only="$only" '
  /^#/ || NF == 0 { next }
  /^[A-Z]/ { name = $1; n = 0; next }
  /^  fx_/ { file = $1; next }
  /^  - / { old = substr($0, 5); next }
  /^  [+]/ { if (only == "" || only == name) {
      part = parts "/" name "." n++
      print name "\n" file "\n" old "\n" substr($0, 5) > part
      close(part) } next }
  { print "broken.txt: not understood: " $0 > "/dev/stderr"; exit 1 }
' tests/broken.txt

build() {
  name=$1
  dir=$out/$name.d
  mkdir -p "$dir"
  cp "$out"/sound/*.o "$dir"
  for part in "$out/parts/$name".*; do
    file=$(sed -n 2p "$part")
    [ -f "$dir/$file" ] || cp "core/$file" "$dir/$file"
    OLD=$(sed -n 3p "$part") NEW=$(sed -n 4p "$part") awk '
      { at = index($0, ENVIRON["OLD"])
        if (at > 0) { found++
          $0 = substr($0, 1, at - 1) ENVIRON["NEW"] substr($0, at + length(ENVIRON["OLD"])) }
        print }
      END { if (found != 1) {
        print "broken.txt: " found + 0 " times: " ENVIRON["OLD"] > "/dev/stderr"; exit 1 } }
    ' "$dir/$file" > "$dir/next"
    mv "$dir/next" "$dir/$file"
  done
  for file in "$dir"/*.c; do
    $cc -I core -I ports -c "$file" -o "$dir/core-$(basename "$file" .c).o"
  done
  $cc "$dir"/*.o -o "$out/$name"
  rm -r "$dir"
}

names=$(ls "$out/parts" | sed 's/[.][0-9]*$//' | sort -u)
[ -n "$names" ] || { echo "broken.sh: no such break: $only" >&2; exit 2; }
for name in $names; do
  build "$name"
done
rm -r "$out/parts" "$out/sound"
touch "$out/all"
