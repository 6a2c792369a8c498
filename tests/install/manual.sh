# Manual pages against --help, as the installed command prints it: a page for every verb, all of its options, no complaint of the formatter.
. "$(dirname "$0")/common.sh"
install_and_move
pages="$tree/share/man/man1"
checked=0

# check_page VERB...: then the verbs below it, which --help lists after "Subcommands:".
check_page() {
  page="$pages/exworks$(for w in "$@"; do printf -- '-%s' "$w"; done).1"
  [ -f "$page" ] || fail "no page for: exworks $*"
  "$tree/bin/exworks" "$@" --help >"$work/help"
  groff -man -Tutf8 -Kutf8 -ww -P-c -P-b -P-u "$page" >"$work/page" 2>"$work/complaints" || fail "groff: $page"
  [ ! -s "$work/complaints" ] || { cat "$work/complaints" >&2; fail "groff complains about $page"; }
  head -n 1 "$page" | grep -qF "exworks $version" || fail "$page is of another version"
  for option in $(sed -n 's/^  \(-[-a-z,]*\).*/\1/p' "$work/help" | tr ',' ' '); do
    grep -qF "$(printf '%s' "$option" | sed 's/-/\\-/g')" "$page" || fail "$page: $option is missing"
    grep -qF -- "$option" "$work/page" || fail "$page: $option can't be searched for as it is typed"
  done
  sed -n 's/^Example: //p' "$work/help" | while read -r line; do
    grep -qF -- "$(printf '%s' "$line" | sed 's/-/\\-/g')" "$page" || fail "$page: an example is missing: $line"
  done
  checked=$((checked + 1))
  for below in $(sed -n '/^Subcommands:/,/^[^ S]/s/^  \([a-z][-a-z]*\) .*/\1/p' "$work/help"); do check_page "$@" "$below"; done
}

check_page
[ "$checked" -gt 20 ] || fail "only $checked pages were found"
[ "$checked" -eq "$(find "$pages" -name '*.1' | wc -l)" ] || fail "there are pages of verbs that --help doesn't list"
