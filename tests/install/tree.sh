# The installed tree, moved, with no source tree: README's main job, every verb's help, and one version everywhere.
. "$(dirname "$0")/common.sh"
install_and_move
main_job "$tree"

away "$tree/bin/exworks" --version | grep -qF "exworks $version," || fail "--version says something else than the project"
(cd "$tree/share/exworks" && away "$tree/bin/exworks" pack check rules/aldermoor-carrier >"$work/check") || fail "pack check of an installed pack"
(cd "$tree/share/exworks" && away "$tree/bin/exworks" scheme sample-vehicles/morris-minor-1950-saloon.xml >"$work/scheme") || fail "scheme finds no schemes"
[ -s "$work/scheme" ] || fail "scheme prints nothing"

# Called by a relative path, and through a link from another folder.
(cd "$tree/bin" && away ./exworks pack show aldermoor-carrier >"$work/show") || fail "called as ./exworks it finds no rules"
mkdir "$work/elsewhere"
ln -s "$tree/bin/exworks" "$work/elsewhere/exworks"
away "$work/elsewhere/exworks" pack show aldermoor-carrier | diff "$work/show" - || fail "called through a link it finds no rules"
(cd / && away sh -c 'PATH="$0:$PATH" exworks pack show aldermoor-carrier' "$tree/bin") | diff "$work/show" - || fail "found by \$PATH it finds no rules"

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

# The version stands in one place: no file of the code, rules or documents repeats it.
(cd "$source" && grep -rlwF "$version" --include='*.cpp' --include='*.hpp' --include='*.txt' --include='*.cmake' --include='*.md' --include='*.in' CMakeLists.txt README.md DEVELOPERS.md lib cli) >"$work/where"
[ "$(cat "$work/where")" = CMakeLists.txt ] || { cat "$work/where" >&2; fail "the version stands elsewhere than in CMakeLists.txt"; }
