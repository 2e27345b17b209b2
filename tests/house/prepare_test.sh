#!/bin/sh
# tools/prepare against a made-up system: a folder of stand-ins is all that its PATH holds.
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

# Knows every package but those in the file "absent".
stand_in dpkg-query 'shift 3; for p; do grep -qx "$p" "$WORK/absent" || echo "$p=installed"; done'
stand_in apt-get 'echo "apt-get $*" >>"$WORK/calls"; echo "(apt-get at work)"'
stand_in id 'echo 0'

: >"$work/absent"
expect "all there: silence" "" "$(prepare --tests)"
expect "all there: nothing called" "" "$(calls)"

printf 'cmake\nlibembree-dev\n' >"$work/absent"
said=$(prepare)
expect "what is missing is said before anything is done" \
    "To be installed with apt-get, with what they depend on: cmake libembree-dev
(apt-get at work)
(apt-get at work)" "$said"
expect "lists first, then only what is missing, without recommendations" \
    "apt-get -q -o DPkg::Lock::Timeout=300 update
apt-get -q -o DPkg::Lock::Timeout=300 install -y --no-install-recommends -o Dpkg::Use-Pty=0 cmake libembree-dev" \
    "$(calls)"

printf 'embree-tools\n' >"$work/absent"
expect "what only tests need is not asked of the photographer" "" "$(prepare)"
expect "and is of the tests" \
    "To be installed with apt-get, with what they depend on: embree-tools" \
    "$(prepare --tests | grep 'To be')"

stand_in id 'echo 1000'
expect "neither root nor sudo: one line that says what to do" \
    "tools/prepare: please have root run, as there is no sudo here: apt-get install --no-install-recommends embree-tools" \
    "$(prepare --tests)"
expect "neither root nor sudo: nothing tried" "" "$(calls)"

stand_in sudo 'echo "sudo $1 $2 $3" >>"$WORK/calls"; exec "$@"'
prepare --tests >/dev/null
expect "through sudo where not root" \
    "sudo env DEBIAN_FRONTEND=noninteractive apt-get" "$(grep -m 1 sudo "$work/calls")"

stand_in apt-get 'exit 100'
prepare --tests >/dev/null 2>&1
expect "an installation that fails is a failure" 1 $?

exit $((failures > 0))
