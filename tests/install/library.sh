# A project outside finds the library, builds with strict warnings, and gets the answer that the command prints. Nothing else is exported.
. "$(dirname "$0")/common.sh"
install_and_move
library=$(find "$tree/lib" -name 'libexworks.so.*.*.*')
[ "$(basename "$library")" = "libexworks.so.$version" ] || fail "the library's version is not the project's: $library"

# std:: and the like may leak nothing either: a program must not get our copies of them.
nm -DC --defined-only "$library" | cut -d ' ' -f 3- | grep -Ev '^((typeinfo|typeinfo name|vtable) for )?exworks::api::' >"$work/strangers" && { head "$work/strangers" >&2; fail "the library exports more than its interface"; }

cmake -S "$source/tests/install/consumer" -B "$work/consumer" -DCMAKE_PREFIX_PATH="$tree" -DWANTED="${version%.*}" >"$work/log" 2>&1 &&
  cmake --build "$work/consumer" >>"$work/log" 2>&1 || { cat "$work/log" >&2; fail "the consumer doesn't build"; }
cmake -S "$source/tests/install/consumer" -B "$work/newer" -DCMAKE_PREFIX_PATH="$tree" -DWANTED=99.0 >"$work/log" 2>&1 && fail "version 99.0 was found"

cd "$tree/share/exworks"
vehicle=sample-vehicles/morris-minor-1950-saloon.xml
away "$work/consumer/consumer" rules/morris-minor "$vehicle" >"$work/theirs" || fail "the consumer ended with $?"
away "$tree/bin/exworks" assess --json "$vehicle" | diff - "$work/theirs" || fail "the library and the command differ"

# Mistakes arrive with their place: the third character of line 2.
printf '<inspection format="1" family="morris-minor">\n  <sen/>\n</inspection>\n' >"$work/bad.xml"
code=0
away "$work/consumer/consumer" rules/morris-minor "$work/bad.xml" >"$work/out" 2>"$work/err" || code=$?
[ "$code" -eq 3 ] || fail "the consumer ended with $code at a file with a mistake"
grep -q "^$work/bad.xml:2:3: .*; " "$work/err" || { cat "$work/err" >&2; fail "the mistake has no place"; }
away "$work/consumer/consumer" rules/nowhere "$vehicle" >"$work/out" 2>"$work/err" && fail "a pack that isn't there was read"
grep -q "; " "$work/err" || fail "a missing pack has no remedy"
