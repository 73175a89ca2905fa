#!/usr/bin/env bash
# Times twenty modes of a whole box against CalculiX in one run and prints the ratio. Needs a built tree,
# ccx (Debian: calculix-ccx) and python3. The argument is CalculiX's elements per metre.
set -euo pipefail
# with more of its own threads the reference is up to five times slower on two cores
export OPENBLAS_NUM_THREADS=1
cd "$(dirname "$0")/../.."
source benchmarks/side-by-side/classpath.sh
result="$(mktemp)"
java -cp "$cp" org.openjdk.jmh.Main -rf csv -rff "$result" -v SILENT '.*BoxBenchmark.*'
ours="$(grep 'modes:p0.50' "$result" | cut -d, -f5 | tr -d '"')"
java -cp "$cp" cutaway.benchmarks.BoxBenchmark > "$result.f"
folder="$(mktemp -d)"
python3 benchmarks/side-by-side/box.py "${1:-30}" > "$folder/box.inp"
(cd "$folder" && OMP_NUM_THREADS=2 /usr/bin/time -f "%e %M" -o time ccx -i box > log)
python3 - "$ours" "$result.f" "$folder" <<'P'
import sys
ours, folder = float(sys.argv[1]), sys.argv[3]
own = [float(v) for v in open(sys.argv[2]).read().split()]
seconds, kib = (float(v) for v in open(folder + "/time").read().split())
rows = [l.split() for l in open(folder + "/box.dat")]
theirs = [float(r[3]) for r in rows if len(r) == 5 and r[0].isdigit() and float(r[3]) > 50][:20]
off = max(abs(a / b - 1) for a, b in zip(own, theirs))
print(f"20 modes of a box: CalculiX {seconds:.2f} s ({kib / 1024:.0f} MiB), Cutaway {ours:.1f} ms, "
      f"{100 * off:.1f} % apart at most: {1000 * seconds / ours:.0f} times as fast")
P
