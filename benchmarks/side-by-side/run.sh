#!/usr/bin/env bash
# Times Cutaway and the reference libraries in one run and prints the ratios of the medians. Needs a built tree and
# python3 with NumPy and SciPy.
set -euo pipefail
cd "$(dirname "$0")/../.."
unset OPENBLAS_CORETYPE OPENBLAS_L2_SIZE
source benchmarks/side-by-side/classpath.sh
result="$(mktemp)"
java -cp "$cp" org.openjdk.jmh.Main -rf csv -rff "$result" -v SILENT '.*(JointFitBenchmark|CaptureBenchmark).*'
time_of() { grep "$1:p0.50" "$result" | cut -d, -f5 | tr -d '"'; }
solve="$(time_of 'JointFitBenchmark.solve')"
search="$(time_of 'JointFitBenchmark.search')"
capture="$(time_of 'CaptureBenchmark.impedance')"
cost="$(java -cp "$cp" cutaway.acoustics.driveunit.JointFitBenchmark)"
read -r scipy_cost scipy <<<"$(python3 benchmarks/side-by-side/joint_fit.py)"
numpy="$(python3 benchmarks/side-by-side/capture.py)"
python3 - "$solve" "$search" "$cost" "$scipy" "$scipy_cost" "$capture" "$numpy" <<'P'
import sys
solve, search, cost, scipy, scipy_cost, capture, numpy = map(float, sys.argv[1:])
print(f"joint fit, same residual: SciPy {scipy:.0f} µs (cost {scipy_cost:.4f}), Cutaway {solve:.0f} µs (cost {cost:.4f}): {scipy / solve:.0f} times as fast")
print(f"joint fit with the whole search over kinds: Cutaway {search / 1000:.1f} ms")
print(f"10 s at 96 kHz to impedance: NumPy {numpy:.0f} ms, Cutaway {capture:.0f} ms: {numpy / capture:.2f} times as fast")
P
