# Sourced by tests that need a Slurm cluster: starts one on this machine, of nodes n1 to nN with one
# core each, with its own configuration, key and spool in a folder. Nothing of the system is touched.
# Everything that was started is ended by its process id.
#
#   has_slurm              whether all programs are there
#   start_slurm FOLDER N   returns 0 when all nodes are idle
#   lose_node NAME         ends the node's daemon and all its jobs' processes at once
#   stop_slurm

has_slurm() {
    PATH=$PATH:/usr/sbin:/sbin
    for program in munged slurmctld slurmd sbatch scontrol sinfo squeue; do
        command -v $program >/dev/null || return 1
    done
}

# Three free ports are not guaranteed; the process id keeps two runs of a test apart.
slurm_conf() {
    base=$((20000 + $$ % 2000 * 10))
    host=$(hostname -s)
    cat <<END
ClusterName=dapple
SlurmctldHost=$host(127.0.0.1)
SlurmctldPort=$base
AuthType=auth/munge
AuthInfo=socket=$slurm/munge.socket
CryptoType=crypto/munge
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
StateSaveLocation=$slurm/state
SlurmdSpoolDir=$slurm/spool.%n
SlurmctldPidFile=$slurm/slurmctld.pid
SlurmdPidFile=$slurm/slurmd.%n.pid
SlurmctldLogFile=$slurm/slurmctld.log
SlurmdLogFile=$slurm/slurmd.%n.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SlurmdParameters=config_overrides
SlurmdTimeout=5
ReturnToService=2
JobRequeue=1
MailProg=/bin/true
AccountingStorageType=accounting_storage/none
SchedulerParameters=sched_interval=1,sched_min_interval=100000,bf_interval=2
END
    for node in $slurm_nodes; do
        echo "NodeName=$node NodeHostname=$host NodeAddr=127.0.0.1 Port=$((base + ${node#n})) CPUs=1"
    done
    echo "PartitionName=all Nodes=ALL Default=YES MaxTime=INFINITE State=UP"
}

start_slurm() {
    slurm=$1
    slurm_nodes=$(seq -f 'n%.0f' 1 "$2")
    slurm_pids=
    mkdir -p "$slurm/state"
    chmod 755 "$slurm"
    head -c 1024 /dev/urandom >"$slurm/munge.key"
    chmod 400 "$slurm/munge.key"
    slurm_conf >"$slurm/slurm.conf"
    export SLURM_CONF="$slurm/slurm.conf"
    munged --foreground --force --key-file="$slurm/munge.key" --socket="$slurm/munge.socket" \
        --pid-file="$slurm/munged.pid" --log-file="$slurm/munged.log" \
        --seed-file="$slurm/munge.seed" >"$slurm/munged.out" 2>&1 &
    slurm_pids=$!
    tries=0
    while [ ! -S "$slurm/munge.socket" ] && [ $tries -lt 50 ]; do
        tries=$((tries + 1))
        sleep 0.2
    done
    slurmctld -D -c >"$slurm/slurmctld.out" 2>&1 &
    slurm_pids="$slurm_pids $!"
    for node in $slurm_nodes; do
        slurmd -D -N "$node" >"$slurm/$node.out" 2>&1 &
        echo $! >"$slurm/$node.process"
        slurm_pids="$slurm_pids $!"
    done
    tries=0
    while [ "$(sinfo --noheader --Node --format=%t 2>/dev/null | grep -c idle)" -ne "$2" ]; do
        tries=$((tries + 1))
        [ $tries -lt 60 ] || return 1
        sleep 0.5
    done
}

# The process and all below it.
family() {
    for child in $(ps -o pid= --ppid "$1"); do family "$child"; done
    echo "$1"
}

# A job's processes are below a daemon of its own, which is named in the spool of its node.
lose_node() {
    lost=$(cat "$slurm/$1.process")
    for script in $(ps -eo pid=,args= | awk -v spool="$slurm/spool.$1/" 'index($0, spool) && !/awk/ { print $1 }'); do
        lost="$lost $(family "$script") $(ps -o ppid= -p "$script")"
    done
    # shellcheck disable=SC2086
    for process in $lost; do
        [ "$process" -le 1 ] || kill -KILL "$process" 2>/dev/null
    done
}

stop_slurm() {
    [ -n "${slurm_pids:-}" ] || return 0
    scancel --quiet --user="$(id -un)" 2>/dev/null
    for node in $slurm_nodes; do lose_node "$node"; done
    # shellcheck disable=SC2086
    kill $slurm_pids 2>/dev/null
    # shellcheck disable=SC2086
    wait $slurm_pids 2>/dev/null
    slurm_pids=
}
