# Completions, asked of the shells themselves. A shell that is not installed is passed over, and said so.
. "$(dirname "$0")/common.sh"
install_and_move
share="$tree/share"

# expect NAME GOT WANT
expect() { [ "$2" = "$3" ] || fail "$1: '$2' instead of '$3'"; }

# in_bash WORD...: what bash offers for the last word.
in_bash() {
  bash -c 'source "$0"; COMP_WORDS=(exworks "$@"); COMP_CWORD=$#; _exworks; echo "${COMPREPLY[*]}"' "$share/bash-completion/completions/exworks" "$@"
}
expect "bash, a verb" "$(in_bash pac)" "pack"
expect "bash, a verb of a group" "$(in_bash pack ch)" "check"
expect "bash, options" "$(in_bash assess --jso)" "--json --jsonl"
expect "bash, the words allowed" "$(in_bash next --for b)" "build both"
expect "bash, files are its own affair" "$(in_bash assess sample)" ""

if command -v zsh >/dev/null; then
  # The completion system needs a terminal: its two functions are stood in for by ones that print.
  in_zsh() {
    zsh -fc '_arguments() { print -rl -- "$@" }; _describe() { print -rl -- $verbs }; file=$1; shift; words=(exworks "$@"); CURRENT=$(( $# + 1 )); source $file' zsh "$share/zsh/vendor-completions/_exworks" "$@"
  }
  in_zsh pac | grep -q '^pack:' || fail "zsh: no verb"
  in_zsh pack ch | grep -q '^check:' || fail "zsh: no verb of a group"
  in_zsh assess --jso | grep -qF -- '--jsonl[' || fail "zsh: no option"
  in_zsh next --for b | grep -qF ':value:(build verdicts both)' || fail "zsh: not the words allowed"
else
  echo "SKIPPED: zsh is not installed"
fi

if command -v fish >/dev/null; then
  in_fish() { HOME="$work" fish --no-config -c "source '$share/fish/vendor_completions.d/exworks.fish'; complete -C '$1'" | cut -f 1 | tr '\n' ' '; }
  expect "fish, a verb" "$(in_fish 'exworks pac')" "pack "
  expect "fish, a verb of a group" "$(in_fish 'exworks pack ch')" "check "
  expect "fish, options" "$(in_fish 'exworks assess --jso')" "--json --jsonl "
  expect "fish, the words allowed" "$(in_fish 'exworks next --for b' | tr ' ' '\n' | sort | tr '\n' ' ' | sed 's/^ //')" "both build "
else
  echo "SKIPPED: fish is not installed"
fi
