# Sourced by demo and test: makes sure that Debian packages are there. Set `prefix` for messages.
# need_packages NAME...   installs what is missing, or says which command would, and returns 1.
need_packages() {
  local missing=() package as_root=()
  if ! command -v dpkg-query > /dev/null; then
    echo "${prefix}: this is not a Debian or Ubuntu system; needed are: $*" >&2
    return 0
  fi
  for package in "$@"; do
    case $(dpkg-query -W -f='${db:Status-Status}' "$package" 2> /dev/null) in
      installed) ;;
      *) missing+=("$package") ;;
    esac
  done
  [ ${#missing[@]} -eq 0 ] && return 0
  if [ "$(id -u)" -ne 0 ]; then
    if command -v sudo > /dev/null && sudo -n true 2> /dev/null; then
      as_root=(sudo -n)
    else
      echo "${prefix}: missing packages; install them with" >&2
      echo "  sudo apt-get install --no-install-recommends ${missing[*]}" >&2
      return 1
    fi
  fi
  echo "${prefix}: installing ${missing[*]}" >&2
  if ! "${as_root[@]}" apt-get update -qq >&2; then
    echo "${prefix}: apt-get update failed; missing: ${missing[*]}" >&2
    return 1
  fi
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq \
    --no-install-recommends "${missing[@]}" >&2 || {
    echo "${prefix}: could not install ${missing[*]}" >&2
    return 1
  }
}

# configure FOLDER CONFIG: one build folder, with ccache only where it is there.
configure() {
  local launcher=()
  command -v ccache > /dev/null && launcher=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
  cmake -C "tools/configs/$2.cmake" -S . -B "$1" -G Ninja "${launcher[@]}" > /dev/null
}

# need_if_offered NAME: installs a package only where the distribution offers it.
need_if_offered() {
  dpkg-query -W "$1" > /dev/null 2>&1 || [ -n "$(apt-cache madison "$1" 2> /dev/null)" ] || {
    echo "${prefix}: no package $1 here; the checks that want it are skipped" >&2
    return 0
  }
  need_packages "$1"
}

# need_node: node and npm, from Debian unless somebody has put their own there.
need_node() {
  command -v node > /dev/null && command -v npm > /dev/null && return 0
  need_packages nodejs npm
}

build_packages=(g++ cmake ninja-build libboost-dev libyaml-cpp-dev libfmt-dev coinor-libclp-dev
  nlohmann-json3-dev libcli11-dev)
test_packages=(doctest-dev librapidcheck-dev python3-icalendar python3-jsonschema python3-vobject
               python3-yaml clang-format-14 gnumeric
               fonts-dejavu-core wordnet-base)
# Where the distribution has no such package the checks that want it say that they are skipped.
browser_package=chromium-headless-shell
