#!/bin/sh
# Runs tools/prepare in a simulated system: its PATH contains only a folder of fake commands.
set -u
cd "$(dirname "$0")/../.."
. tests/house/expect.sh

bin=$work/bin
mkdir "$bin"
for tool in sh env tr cat grep; do
    ln -s "$(command -v $tool)" "$bin/$tool"
done
stand_in() { # stand_in NAME SCRIPT
    printf '#!/bin/sh\n%s\n' "$2" >"$bin/$1"
    chmod +x "$bin/$1"
}
prepare() {
    : >"$work/calls"
    WORK=$work PATH=$bin "$bin/sh" tools/prepare "$@" 2>&1
}
calls() {
    cat "$work/calls"
}

expect "not Debian: one line" 1 "$(prepare | wc -l)"
prepare >/dev/null
expect "not Debian: refused" 1 $?

# Lists every package except those in the file "absent".
stand_in dpkg-query 'shift 3; for p; do grep -qx "$p" "$WORK/absent" || echo "$p=installed"; done'
stand_in apt-get 'echo "apt-get $*" >>"$WORK/calls"; echo "(apt-get at work)"'
stand_in id 'echo 0'

: >"$work/absent"
expect "nothing missing: no output" "" "$(prepare --tests)"
expect "nothing missing: no command called" "" "$(calls)"

printf 'cmake\nlibembree-dev\n' >"$work/absent"
said=$(prepare)
expect "the missing packages are printed before they are installed" \
    "Installing with apt-get, with their dependencies: cmake libembree-dev
(apt-get at work)
(apt-get at work)" "$said"
expect "updates the lists, then installs only what is missing, without recommendations" \
    "apt-get -q -o DPkg::Lock::Timeout=300 update
apt-get -q -o DPkg::Lock::Timeout=300 install -y --no-install-recommends -o Dpkg::Use-Pty=0 cmake libembree-dev" \
    "$(calls)"

printf 'embree-tools\n' >"$work/absent"
expect "packages for tests are not installed without --tests" "" "$(prepare)"
expect "packages for tests are installed with --tests" \
    "Installing with apt-get, with their dependencies: embree-tools" \
    "$(prepare --tests | grep 'Installing')"

stand_in id 'echo 1000'
expect "neither root nor sudo: one line with the command to run" \
    "tools/prepare: sudo is not available; run this as root: apt-get install --no-install-recommends embree-tools" \
    "$(prepare --tests)"
expect "neither root nor sudo: no command called" "" "$(calls)"

stand_in sudo 'echo "sudo $1 $2 $3" >>"$WORK/calls"; exec "$@"'
prepare --tests >/dev/null
expect "uses sudo if the user is not root" \
    "sudo env DEBIAN_FRONTEND=noninteractive apt-get" "$(grep -m 1 sudo "$work/calls")"

stand_in apt-get 'exit 100'
prepare --tests >/dev/null 2>&1
expect "an installation that fails is a failure" 1 $?

exit $((failures > 0))
