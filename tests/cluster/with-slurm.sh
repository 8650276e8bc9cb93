#!/usr/bin/env bash
# Runs a command beside a Slurm of its own: munged, slurmctld and slurmd on this machine, with their configuration, keys,
# logs and ports to themselves, all gone afterwards, whatever happened. Wants no root, no systemd and no cgroups.
#
#   tests/cluster/with-slurm.sh COMMAND [ARGUMENT ...]
set -euo pipefail

export PATH="$PATH:/usr/sbin:/sbin"
for program in munged slurmctld slurmd sbatch parallel; do
  command -v "$program" >/dev/null || {
    echo "$program is wanted here: apt-get install slurm-wlm munge parallel" >&2
    exit 1
  }
done

home=$(mktemp -d)
daemons=()

stop() {
  local code=$? daemon
  trap - EXIT
  if [[ -e $home/ready ]]; then
    scancel --user="$(id -un)" || true
    wait_for 20 nothing_runs || true
  fi
  for daemon in "${daemons[@]}"; do kill "$daemon" 2>/dev/null || true; done
  for daemon in "${daemons[@]}"; do
    wait_for 10 is_gone "$daemon" || kill -KILL "$daemon" 2>/dev/null || true
    wait "$daemon" 2>/dev/null || true
  done
  if ((code != 0)); then tail --lines=40 "$home"/*.log >&2 || true; fi
  rm -rf "$home"
  exit "$code"
}
trap stop EXIT
trap 'exit 130' INT
trap 'exit 143' TERM

# wait_for SECONDS COMMAND …: until the command succeeds, or the time is over.
wait_for() {
  local tries=$(($1 * 5))
  shift
  until "$@"; do
    ((tries-- > 0)) || return 1
    sleep 0.2
  done
}
is_gone() { ! kill -0 "$1" 2>/dev/null; }
nothing_runs() { [[ -z $(squeue --noheader 2>/dev/null) ]]; }
munge_answers() { munge --no-input --socket="$home/munge.socket" >/dev/null 2>&1; }
node_is_idle() { [[ $(sinfo --noheader --format=%T 2>/dev/null) == idle ]]; }
free_ports() {
  node --input-type=module --eval "
    import { createServer } from 'node:net';
    import { once } from 'node:events';
    const servers = [1, 2].map(() => createServer().listen(0, '127.0.0.1'));
    await Promise.all(servers.map((server) => once(server, 'listening')));
    console.log(servers.map((server) => server.address().port).join(' '));
    for (const server of servers) server.close();"
}

read -r controller_port node_port < <(free_ports)
mkdir "$home/state" "$home/spool"
(umask 077 && head --bytes=128 /dev/urandom >"$home/munge.key")

# A requeued task waits until its old credential has expired: 2 minutes unless said otherwise.
cat >"$home/slurm.conf" <<CONF
ClusterName=test
SlurmctldHost=$(hostname)(127.0.0.1)
SlurmctldPort=$controller_port
SlurmdPort=$node_port
AuthType=auth/munge
CredType=cred/munge
AuthInfo=socket=$home/munge.socket,cred_expire=5
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
StateSaveLocation=$home/state
SlurmdSpoolDir=$home/spool
SlurmctldPidFile=$home/slurmctld.pid
SlurmdPidFile=$home/slurmd.pid
SlurmctldLogFile=$home/slurmctld.log
SlurmdLogFile=$home/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SwitchType=switch/none
MpiDefault=none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SlurmdParameters=config_overrides
KillWait=2
ReturnToService=2
NodeName=here NodeHostname=$(hostname) NodeAddr=127.0.0.1 Sockets=1 CoresPerSocket=2 ThreadsPerCore=1 State=UNKNOWN
PartitionName=all Nodes=ALL Default=YES MaxTime=INFINITE State=UP
CONF
export SLURM_CONF=$home/slurm.conf

munged --foreground --force --socket="$home/munge.socket" --key-file="$home/munge.key" --seed-file="$home/munge.seed" \
  --pid-file="$home/munged.pid" --log-file="$home/munged.log" >"$home/munged-out.log" 2>&1 &
daemons+=($!)
wait_for 20 munge_answers || {
  echo 'munged does not answer' >&2
  exit 1
}
slurmctld -D -f "$SLURM_CONF" >"$home/slurmctld-out.log" 2>&1 &
daemons+=($!)
slurmd -D -N here -f "$SLURM_CONF" >"$home/slurmd-out.log" 2>&1 &
daemons+=($!)
wait_for 60 node_is_idle || {
  echo 'slurm does not come up' >&2
  exit 1
}
touch "$home/ready"

"$@"
