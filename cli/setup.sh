# Shared by cli/run and tests/run: installs what is missing (Debian 12) and builds what is not up to date.
# Sourced with $root set to the top of the tree. All of its talk goes to standard error.

packages="g++ cmake ninja-build libpugixml-dev libsqlitecpp-dev libsqlite3-dev libcli11-dev nlohmann-json3-dev libssl-dev libarchive-dev libexif-dev libcpp-httplib-dev libqrencode-dev pkg-config catch2"

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

# build FOLDER TARGET OPTION...
build() {
  folder="$root/build/$1"
  target="$2"
  shift 2
  if [ ! -f "$folder/build.ninja" ]; then
    cmake -S "$root" -B "$folder" -G Ninja "$@" >&2 || return 1
  fi
  cmake --build "$folder" --target "$target" >"$folder/log" 2>&1 || { cat "$folder/log" >&2; return 1; }
}
