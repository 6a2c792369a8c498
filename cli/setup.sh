# Shared by cli/run and tests/run: installs what is missing (Debian 12) and builds what is not up to date.
# Sourced with $root set to the top of the tree. All of its talk goes to standard error.

packages="g++ cmake ninja-build libpugixml-dev libsqlitecpp-dev libsqlite3-dev libcli11-dev nlohmann-json3-dev libssl-dev libarchive-dev libexif-dev libcpp-httplib-dev libqrencode-dev libspdlog-dev pkg-config catch2"

# install_packages NAME...: those that dpkg doesn't know are installed with apt-get, as root or through sudo.
install_packages() {
  missing=""
  for name in "$@"; do
    dpkg-query -W -f '${Status}\n' "$name" 2>/dev/null | grep -q 'ok installed' || missing="$missing $name"
  done
  [ -n "$missing" ] || return 0
  echo "installing:$missing" >&2
  as_root=""
  [ "$(id -u)" -eq 0 ] || as_root="sudo"
  # shellcheck disable=SC2086  # words are wanted
  { $as_root apt-get update -qq && DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends $missing; } >&2
}

# Seconds between two lines of progress where nobody watches.
: "${progress_seconds:=60}"

# A sleep that outlives its shell keeps nobody waiting who reads our output.
pause() { sleep "$1" </dev/null >/dev/null 2>&1; }

# show_progress LOG: ninja's latest line, on a terminal in one place, elsewhere as a line a minute. A short build says nothing.
show_progress() {
  if [ -t 2 ]; then
    columns=$(stty size <&2 2>/dev/null | cut -d ' ' -f 2)
    [ "${columns:-0}" -gt 0 ] || columns=80
    while pause 1 && kill -0 $$ 2>/dev/null; do
      printf '\r\033[K%s' "$(tail -n 1 "$1" | cut -c "1-$((columns - 1))")" >&2
    done
  else
    while pause "$progress_seconds" && kill -0 $$ 2>/dev/null; do
      echo "still building: $(tail -n 1 "$1")" >&2
    done
  fi
}

# build FOLDER TARGET OPTION...
build() {
  folder="$root/build/$1"
  target="$2"
  shift 2
  log="$folder/log"
  if [ ! -f "$folder/build.ninja" ]; then
    echo "first run: building in $folder, which takes some minutes; later runs start at once" >&2
    mkdir -p "$folder"
    cmake -S "$root" -B "$folder" -G Ninja "$@" >"$log" 2>&1 || { cat "$log" >&2; return 1; }
  fi
  : >"$log"
  show_progress "$log" &
  watcher=$!
  # In the foreground, so that Ctrl-C ends it.
  built=0
  cmake --build "$folder" --target "$target" >"$log" 2>&1 || built=$?
  kill "$watcher" 2>/dev/null || :
  wait "$watcher" 2>/dev/null || :
  [ ! -t 2 ] || printf '\r\033[K' >&2
  [ "$built" -eq 0 ] || { cat "$log" >&2; return 1; }
}
