# What cli/run and tests/run say while they build: never on standard output, ninja's latest line on a terminal, a line now and then elsewhere,
# the log when it fails. The build itself is a stand-in that takes three seconds.
. "$(dirname "$0")/common.sh"
root="$work/tree"
mkdir -p "$work/bin" "$root"
cat >"$work/bin/cmake" <<'END'
#!/bin/sh
case "$1" in
  -S) echo "-- configuring" ; touch "$4/build.ninja" ;;
  --build)
    [ ! -e "$2/quick" ] || exit 0
    for n in 1 2 3; do echo "[$n/3] Building part-$n.cpp.o"; sleep 1; done
    if [ -e "$2/broken" ]; then echo "part-3.cpp: error: no such thing"; exit 1; fi ;;
esac
END
chmod +x "$work/bin/cmake"
cat >"$work/try" <<'END'
set -eu
root="$1" progress_seconds=1
. "$2/cli/setup.sh"
build release exworks_cli
echo "the command's own answer"
END
try() { PATH="$work/bin:$PATH" sh "$work/try" "$root" "$source"; }

try >"$work/out" 2>"$work/talk" || fail "the first build"
[ "$(cat "$work/out")" = "the command's own answer" ] || fail "standard output holds: $(cat "$work/out")"
grep -qF "first run: building in $root/build/release, which takes some minutes" "$work/talk" || fail "the first run doesn't say what it does"
grep -qx "still building: \[[123]/3\] Building part-[123].cpp.o" "$work/talk" || fail "no line of progress"
! grep -qF "configuring" "$work/talk" || fail "what cmake says is not for a newcomer"

touch "$root/build/release/broken"
! try >"$work/out" 2>"$work/talk" || fail "a failed build is no success"
[ ! -s "$work/out" ] || fail "a failed build writes to standard output"
grep -qF "part-3.cpp: error: no such thing" "$work/talk" || fail "the log of a failed build is not shown"
! grep -qF "first run" "$work/talk" || fail "the second run is no first run"

rm "$root/build/release/broken"
PATH="$work/bin:$PATH" script -qec "sh '$work/try' '$root' '$source'" "$work/screen" >/dev/null </dev/null || fail "on a terminal"
grep -qF "[2/3] Building part-2.cpp.o" "$work/screen" || fail "a terminal doesn't show ninja's line"
! grep -qF "still building" "$work/screen" || fail "a terminal shows the lines meant for a file"

touch "$root/build/release/quick"
try >"$work/out" 2>"$work/talk" || fail "when all is built"
[ ! -s "$work/talk" ] || fail "when all is built it says: $(cat "$work/talk")"
