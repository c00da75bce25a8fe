# shellcheck shell=bash
# What the scripts in this folder share: finding and installing what is missing, building quietly,
# and saying in plain words what went wrong. Read by `source`; it runs nothing by itself.
#
# Everything said here goes to stderr, so that a script's stdout holds its result only.

COMPLINE_ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
readonly COMPLINE_ROOT
readonly PACKAGE_LIST=$COMPLINE_ROOT/tools/packages

say() { printf '%s\n' "$@" >&2; }

die() {
    say "$@"
    exit 1
}

# --- What is missing -------------------------------------------------------------------------

# packages_of GROUP...: "probe<TAB>package" a line, as in tools/packages.
packages_of() {
    local group probe package
    while read -r group probe package; do
        if [[ " $* " == *" $group "* ]]; then printf '%s\t%s\n' "$probe" "$package"; fi
    done < <(grep -v '^ *\(#\|$\)' "$PACKAGE_LIST")
}

have_apt() { command -v apt-get >/dev/null && command -v dpkg-query >/dev/null; }

is_installed() {
    [[ $(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null) == installed ]]
}

# any_installed "a | b": is one of the alternatives there?
any_installed() {
    local package
    for package in ${1//|/ }; do
        if is_installed "$package"; then return 0; fi
    done
    return 1
}

# first_on_offer "a | b": the first alternative that this release has, else the first one, so that
# apt's own error names it.
first_on_offer() {
    local package
    for package in ${1//|/ }; do
        if [[ -n $(apt-cache show --no-all-versions "$package" 2>/dev/null) ]]; then
            printf '%s\n' "$package"
            return
        fi
    done
    printf '%s\n' "${1%% *}"
}

compiles() { "${CXX:-c++}" -std=c++20 -fsyntax-only -x c++ - >/dev/null 2>&1 <<<"$1"; }

# has_header "a.h,b.h": can the compiler find one of them?
has_header() {
    local header
    for header in ${1//,/ }; do
        if compiles "#include <$header>"; then return 0; fi
    done
    return 1
}

# is_found PROBE: the check for systems without apt.
is_found() {
    local what=${1#*:}
    case $1 in
        command:*) command -v "$what" >/dev/null ;;
        file:*) [[ -e $what ]] ;;
        module:*) pkg-config --exists "$what" 2>/dev/null ;;
        header:*) has_header "$what" ;;
        python:*) /usr/bin/python3 -c "import $what" 2>/dev/null ;;
        clang-runtime:*) [[ -n $(find "$(clang++ -print-resource-dir 2>/dev/null)/lib" -name "libclang_rt.$what*" 2>/dev/null) ]] ;;
        *) die "tools/packages: unknown kind of probe: $1" ;;
    esac
}

# missing_packages GROUP...: one entry a line, in the words of tools/packages.
missing_packages() {
    local probe package
    while IFS=$'\t' read -r probe package; do
        if have_apt; then
            any_installed "$package" || printf '%s\n' "$package"
        else
            is_found "$probe" || printf '%s\n' "$package"
        fi
    done < <(packages_of "$@") | sort -u
}

# --- Installing ------------------------------------------------------------------------------

as_root() {
    if [[ $(id -u) == 0 ]]; then
        "$@"
    else
        sudo "$@"
    fi
}

apt() {
    as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300 "$@" </dev/null
}

# logged LOG COMMAND...: keeps the output in LOG and shows it only when the command fails.
logged() {
    local log=$1
    shift
    if "$@" >>"$log" 2>&1; then return 0; fi
    tail -n 40 "$log" >&2
    return 1
}

install_with_apt() {
    local log names=() entry
    if [[ $(id -u) != 0 ]] && ! command -v sudo >/dev/null; then
        for entry in "$@"; do names+=("$(first_on_offer "$entry")"); done
        die "Some packages are missing, and there is no sudo to install them with. Run this as root:" \
            "  apt-get install --no-install-recommends ${names[*]}"
    fi
    log=$(mktemp)
    say "Some packages are missing; fetching the list of what can be installed ..."
    logged "$log" apt update || die "apt-get update failed (see above). Is this machine online?"
    for entry in "$@"; do names+=("$(first_on_offer "$entry")"); done
    say "Installing: ${names[*]}"
    logged "$log" apt install --no-install-recommends "${names[@]}" ||
        die "apt-get could not install: ${names[*]} (see above)"
    rm -f "$log"
}

# need GROUP...: returns with everything of these groups installed, or ends the script with
# status 1 and the names of what to install.
need() {
    local missing
    mapfile -t missing < <(missing_packages "$@")
    if [[ ${#missing[@]} == 0 ]]; then return; fi
    if have_apt; then
        install_with_apt "${missing[@]}"
        return
    fi
    say "Compline needs these, and this system has no apt to install them with. By their Debian names:"
    printf '  %s\n' "${missing[@]}" >&2
    die "Install your system's packages of the same libraries and programs, then run this again."
}

# --- Building --------------------------------------------------------------------------------

# Put before the build's commands; tools/test fills it in for the thread sanitizer.
launcher=()

jobs_here() { nproc 2>/dev/null || echo 2; }

# Ninja's "[12/80]" as one moving line on a terminal, nothing elsewhere.
show_progress() {
    local line
    while IFS= read -r line; do
        if [[ -t 2 && $line =~ ^\[[0-9]+/[0-9]+\] ]]; then printf '\r  %s ' "${BASH_REMATCH[0]}" >&2; fi
    done
    if [[ -t 2 ]]; then printf '\r\033[K' >&2; fi
}

# build PRESET [TARGET...]: configures and builds; quiet unless it fails, then the log's end is
# shown. The whole log stays in build/PRESET.log.
build() {
    local preset=$1 log=$COMPLINE_ROOT/build/$1.log began=$SECONDS targets=() settings=()
    shift
    # All is built there once, and nothing changed afterwards: several files at a time are quicker.
    if [[ ${CI:-} == true ]]; then settings=(-DCOMPLINE_UNITY=ON); fi
    if [[ $# -gt 0 ]]; then targets=(--target "$@"); fi
    mkdir -p "$COMPLINE_ROOT/build"
    say "Building ($preset) ... the first time takes a few minutes."
    (
        cd "$COMPLINE_ROOT"
        "${launcher[@]}" cmake --preset "$preset" "${settings[@]}" &&
            "${launcher[@]}" cmake --build --preset "$preset" -j "$(jobs_here)" "${targets[@]}"
    ) 2>&1 | tee "$log" | show_progress || {
        grep -E -A 12 'error|Error|FAILED' "$log" | head -n 60 >&2 || tail -n 60 "$log" >&2
        die "The build failed; all of its output is in build/$preset.log"
    }
    say "Built ($preset) in $((SECONDS - began)) s."
}

# note_stage NAME SECONDS: for whoever wants to know where the time goes: a line in the file that
# COMPLINE_STAGES names.
note_stage() {
    if [[ -n ${COMPLINE_STAGES:-} ]]; then printf '%s\t%d\n' "$1" "$2" >>"$COMPLINE_STAGES"; fi
}

# --- tonal, in Node --------------------------------------------------------------------------

# tonal_folder: installs the pinned npm package beside its scripts in the build folder and prints
# where. Fails without node and npm.
tonal_folder() {
    local work=$COMPLINE_ROOT/build/chord_table
    command -v node >/dev/null && command -v npm >/dev/null || return 1
    mkdir -p "$work"
    cp "$COMPLINE_ROOT"/tools/chord_table.d/* "$work"
    npm --prefix "$work" ci --silent --no-audit --no-fund >&2 || return 1
    printf '%s\n' "$work"
}
