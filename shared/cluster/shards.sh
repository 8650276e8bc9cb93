#!/usr/bin/env bash
# One task of a Slurm array works out one shard of a comparison; see README.md beside this file.
#
#   sbatch --array=1-20 shared/cluster/shards.sh 20 plan.yaml --replications 100000 [--seed TEXT] [--out FOLDER]
#
# The first word is how many shards there are, the rest goes to `swap-or-hop compare` (or to the study that STUDY names) as it
# stands.
#SBATCH --job-name=swap-or-hop
#SBATCH --cpus-per-task=1
#SBATCH --requeue
#SBATCH --open-mode=append
#SBATCH --output=%x-%A_%a.log
set -euo pipefail

# How often a task that was killed is put back into the queue before its fate is left to a person.
most_restarts=3

if (($# < 2)); then
  echo "usage: sbatch --array=1-N $0 N SCENARIO --replications R [option ...]" >&2
  exit 2
fi
shards=$1
shift

code=0
"${SWAP_OR_HOP:-swap-or-hop}" "${STUDY:-compare}" "$@" \
  --shard "$SLURM_ARRAY_TASK_ID/$shards" --threads "${SLURM_CPUS_PER_TASK:-1}" || code=$?

# Above 128 a signal ended the program, such as 137 = 128 + 9 where the memory ran out: it is worth another try, which goes
# on from what was done. Slurm itself requeues only what a failed node or a preemption took away. After an interrupt (130) or
# a request to end (143) somebody wants the task to end.
if ((code > 128 && code != 130 && code != 143 && ${SLURM_RESTART_COUNT:-0} < most_restarts)); then
  echo "shard $SLURM_ARRAY_TASK_ID/$shards was ended by signal $((code - 128)) and goes back into the queue" >&2
  scontrol requeue "${SLURM_ARRAY_JOB_ID}_$SLURM_ARRAY_TASK_ID"
fi
exit "$code"
