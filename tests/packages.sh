# Installs what is missing of packages.txt. Sourced by run.sh and by examples/first-card.sh.

# packages_of PART: the names in that part, one a line.
packages_of() {
  awk -v part="[$1]" '
    /^\[/ { inside = ($1 == part); next }
    inside && $1 !~ /^#/ && NF { print $1 }' "$(dirname "${BASH_SOURCE[0]}")/packages.txt"
}

# missing_packages PART...: those that are not installed, one a line.
missing_packages() {
  local part name
  for part in "$@"; do
    for name in $(packages_of "$part"); do
      dpkg-query -W -f '${db:Status-Status}\n' "$name" 2>/dev/null | grep -qx installed || echo "$name"
    done
  done
}

# may_become_root: whether `sudo` would work here.
may_become_root() {
  command -v sudo >/dev/null && { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v; }; }
}

# install_packages PART...: installs what is missing, or says how and fails.
install_packages() {
  local missing as_root=""
  missing=$(missing_packages "$@" | tr '\n' ' ')
  [ -n "$missing" ] || return 0
  if [ "$(id -u)" -ne 0 ]; then
    if ! may_become_root; then
      echo "These Debian packages are missing, and neither root nor sudo is at hand. As root, run:" >&2
      echo "  apt-get update && apt-get install --no-install-recommends $missing" >&2
      return 1
    fi
    as_root=sudo
  fi
  echo "installing: $missing"
  $as_root apt-get update -qq || return 1
  # shellcheck disable=SC2086  # the names are words
  $as_root env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y -qq --no-install-recommends $missing >/dev/null || return 1
}

# run_quietly LOG COMMAND...: shows the log's end only if the command fails.
run_quietly() {
  local log=$1
  shift
  mkdir -p "$(dirname "$log")"
  "$@" >"$log" 2>&1 && return 0
  echo "failed: $*" >&2
  tail -n 60 "$log" >&2
  echo "the whole output is in $log" >&2
  return 1
}
