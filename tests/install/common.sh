# Shared by the tests of this folder. They are called with the build folder, the source folder and the project's version.
set -eu
build=$1 source=$2 version=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

fail() { echo "FAILED: $*" >&2; exit 1; }

# Installs, then moves the tree: nothing of it may rest on the place it was installed to. The space in its name is meant.
install_and_move() {
  cmake --install "$build" --prefix "$work/first" >"$work/log" 2>&1 || { cat "$work/log" >&2; fail "cmake --install"; }
  mv "$work/first" "$work/moved here"
  tree="$work/moved here"
}

# Runs with an empty home, a bare environment and, where the system lets us, an empty folder in place of the source tree.
away() {
  mkdir -p "$work/home"
  hide='mount -t tmpfs none "$0" && exec "$@"'
  if unshare --user --map-root-user --mount sh -c "$hide" "$source" true 2>/dev/null; then
    env -i PATH=/usr/bin:/bin HOME="$work/home" unshare --user --map-root-user --mount sh -c "$hide" "$source" "$@"
  else
    echo "note: this system lets us hide no folder; the source tree was in sight" >&2
    env -i PATH=/usr/bin:/bin HOME="$work/home" "$@"
  fi
}

# The README's main job, from a folder that holds bin and share: what the command prints in the source tree, which README.md shows.
main_job() {
  grep -qF "$source" "$1/bin/exworks" && fail "the command holds the path of the source tree"
  job="assess sample-vehicles/morris-minor-1950-saloon.xml"
  grep -qx "sh cli/run $job .*" "$source/README.md" || fail "README.md has another main job"
  (cd "$source" && "$build/cli/exworks" $job) >"$work/wanted" || fail "the main job ended with $? in the source tree"
  # Figures move with the packs; the title doesn't.
  grep -qxF "$(head -n 1 "$work/wanted")" "$source/README.md" || fail "README.md shows another answer"
  (cd "$1/share/exworks" && away "$1/bin/exworks" $job) >"$work/printed" || fail "the main job ended with $?"
  diff "$work/wanted" "$work/printed" || fail "the installed command prints something else"
}
