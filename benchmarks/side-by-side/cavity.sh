#!/usr/bin/env bash
# Times the first standing waves of a room against FreeFem++ in one run and prints the ratio. Needs a built
# tree, FreeFem++ (Debian: freefem++ libfreefem++) and python3.
set -euo pipefail
cd "$(dirname "$0")/../.."
source benchmarks/side-by-side/classpath.sh
result="$(mktemp)"
java -cp "$cp" org.openjdk.jmh.Main -rf csv -rff "$result" -v SILENT '.*CavityBenchmark.*'
ours="$(grep 'waves:p0.50' "$result" | cut -d, -f5 | tr -d '"')"
/usr/bin/time -f "%M" -o "$result" java -cp "$cp" cutaway.benchmarks.CavityBenchmark > "$result.k"
theirs="$(mktemp)"
export FF_LOADPATH="${FF_LOADPATH:-/usr/lib/freefem++/}"
if ! ls "$FF_LOADPATH"/msh3.* >/dev/null 2>&1; then
  echo "FreeFem++ needs its msh3 in $FF_LOADPATH (Debian: libfreefem++), or name the folder in FF_LOADPATH" >&2
  exit 1
fi
FF_LOADPATH="$FF_LOADPATH" /usr/bin/time -f "%M" -o "$theirs.m" FreeFem++ -nw -v 0 benchmarks/side-by-side/cavity.edp "${1:-14}" > "$theirs"
python3 - "$ours" "$result" "$theirs" <<'P'
import sys
ours = float(sys.argv[1])
own = open(sys.argv[2] + ".k").read().split()
lines = [l.split() for l in open(sys.argv[3]) if l.strip()]
get = lambda name: [float(l[1]) for l in lines if l[0] == name]
seconds, unknowns, k = get("seconds")[0], int(get("unknowns")[0]), sorted(get("k"))
# both lie above the exact values, and Cutaway's within 1e-5 of them (CavityTest)
apart = max(abs(a / float(b) - 1) for a, b in zip(k, own[1:]))
print(f"15 standing waves: FreeFem++ {seconds:.1f} s ({unknowns} unknowns, {int(open(sys.argv[3] + '.m').read()) / 1024:.0f} MiB), "
      f"Cutaway {ours:.0f} ms ({own[0]} unknowns, {int(open(sys.argv[2]).read()) / 1024:.0f} MiB with its JVM), "
      f"apart by {apart:.1e} at most: {1000 * seconds / ours:.0f} times as fast")
P
