# The installed tree, moved, with no source tree: README's main job, every verb's help, and one version everywhere.
. "$(dirname "$0")/common.sh"
install_and_move
main_job "$tree"

away "$tree/bin/exworks" --version | grep -qF "exworks $version," || fail "--version says something else than the project"
(cd "$tree/share/exworks" && away "$tree/bin/exworks" pack check rules/aldermoor-carrier >"$work/check") || fail "pack check of an installed pack"
(cd "$tree/share/exworks" && away "$tree/bin/exworks" scheme sample-vehicles/morris-minor-1950-saloon.xml >"$work/scheme") || fail "scheme finds no schemes"
[ -s "$work/scheme" ] || fail "scheme prints nothing"

# A folder without rules is an error that says what to do, not a search elsewhere.
mv "$tree/share/exworks/rules" "$work/rules"
code=0
(cd "$tree/share/exworks" && away "$tree/bin/exworks" assess sample-vehicles/morris-minor-1950-saloon.xml) >"$work/out" 2>"$work/err" || code=$?
[ "$code" -eq 4 ] || fail "without rules the exit code is $code, not 4"
grep -q -- '--rules' "$work/err" || fail "without rules the message names no way out"
[ ! -s "$work/out" ] || fail "without rules something was printed as a result"

# Every file of the rules came along.
(cd "$source/rules" && find . -type f | sort) >"$work/want"
(cd "$work/rules" && find . -type f | sort) | diff "$work/want" - || fail "rules were left behind"
