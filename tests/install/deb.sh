# The Debian package: what it says of itself, and README's main job from its files alone.
. "$(dirname "$0")/common.sh"
cpack --config "$build/CPackConfig.cmake" -B "$work/packed" >"$work/log" 2>&1 || { cat "$work/log" >&2; fail "cpack"; }
package=$(find "$work/packed" -maxdepth 1 -name '*.deb')
[ -f "$package" ] || fail "cpack made no package"
field() { dpkg-deb --field "$package" "$1"; }
[ "$(field Package)" = exworks ] || fail "the package is called $(field Package)"
[ "$(field Version)" = "$version" ] || fail "its version is $(field Version)"
[ "$(field Recommends)" = weasyprint ] || fail "it recommends $(field Recommends)"

# Each library that the command asks for comes from a package it depends on.
dpkg-deb --extract "$package" "$work/root"
for library in $(objdump -p "$work/root/usr/bin/exworks" | sed -n 's/^ *NEEDED *//p'); do
  path=$(ldconfig -p | sed -n "s|^\s*$library .* => ||p" | head -n 1)
  owner=$(dpkg-query -S "$(readlink -f "$path")" "$path" "${path#/usr}" 2>/dev/null | head -n 1 | cut -d : -f 1)
  [ -n "$owner" ] || fail "no package holds $library"
  case "$owner" in gcc-*-base) continue ;; esac
  field Depends | tr ',' '\n' | sed 's/^ *//; s/ .*//; s/-fmt[0-9]*$//' | grep -Fqx "$owner" || fail "it needs $library of $owner, and doesn't depend on it"
done
main_job "$work/root/usr"
