#!/usr/bin/env bash
# Times the first modes of a clamped board against CalculiX in one run and prints the ratio. Needs a built tree,
# ccx (Debian: calculix-ccx) and python3. The arguments are CalculiX's elements along x, y and z.
set -euo pipefail
# with more of its own threads the reference is up to five times slower on two cores
export OPENBLAS_NUM_THREADS=1
cd "$(dirname "$0")/../.."
source benchmarks/side-by-side/classpath.sh
result="$(mktemp)"
java -cp "$cp" org.openjdk.jmh.Main -rf csv -rff "$result" -v SILENT '.*PanelBenchmark.*'
ours="$(grep 'modes:p0.50' "$result" | cut -d, -f5 | tr -d '"')"
java -cp "$cp" cutaway.benchmarks.PanelBenchmark > "$result.f"
folder="$(mktemp -d)"
python3 benchmarks/side-by-side/panel.py "${1:-16}" "${2:-12}" "${3:-2}" > "$folder/panel.inp"
(cd "$folder" && OMP_NUM_THREADS=2 /usr/bin/time -f "%e %M" -o time ccx -i panel > log)
python3 - "$ours" "$result.f" "$folder" <<'P'
import sys
ours, folder = float(sys.argv[1]), sys.argv[3]
own = [float(v) for v in open(sys.argv[2]).read().split()]
seconds, kib = (float(v) for v in open(folder + "/time").read().split())
rows = [l.split() for l in open(folder + "/panel.dat")]
theirs = [float(r[3]) for r in rows if len(r) == 5 and r[0].isdigit()][:10]
# the same board as solids, four layers, graded (reference case b3_s01): error 0.1 to 0.4 %
truth = [567.46, 938.16, 1296.09, 1529.87, 1619.94, 2154.53, 2304.40, 2340.67, 2632.34, 2876.95]
worst = lambda f: max(abs(a / b - 1) for a, b in zip(f, truth))
print(f"10 modes of a board: CalculiX {seconds:.2f} s ({kib / 1024:.0f} MiB, {100 * worst(theirs):.2f} % off at most), "
      f"Cutaway {ours:.1f} ms ({100 * worst(own):.2f} % off): {1000 * seconds / ours:.0f} times as fast")
P
