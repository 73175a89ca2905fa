#!/usr/bin/env bash
# Times the harmonics of one sweep of 8 s against NumPy in one run and prints the ratio. Needs a built tree and python3
# with NumPy.
set -euo pipefail
cd "$(dirname "$0")/../.."
source benchmarks/side-by-side/classpath.sh
result="$(mktemp)"
java -cp "$cp" org.openjdk.jmh.Main -rf csv -rff "$result" -v SILENT '.*HarmonicsBenchmark.*'
ours="$(grep 'takenOut:p0.50' "$result" | cut -d, -f5 | tr -d '"')"
own="$(java -cp "$cp" cutaway.benchmarks.HarmonicsBenchmark)"
read -r left theirs <<<"$(python3 benchmarks/side-by-side/harmonics.py)"
python3 - "$ours" "$own" "$theirs" "$left" <<'P'
import sys
ours, own, theirs, left = map(float, sys.argv[1:])
print(f"harmonics of 8 s of sweep: NumPy {theirs:.0f} ms (leaves {left:.4e}), Cutaway {ours:.1f} ms (leaves {own:.4e}): {theirs / ours:.1f} times as fast")
P
