#!/usr/bin/env bash
# Makes the demo's takes again: needs a built tree and Debian's flac.
set -euo pipefail
cd "$(dirname "$0")/.."
takes=bench/src/main/resources/cutaway/bench/demo/takes
java -cp benchmarks/target/classes cutaway.benchmarks.demo.DemoGenerator "$takes"
classes="benchmarks/target/classes:acoustics/target/classes:$(find ~/.m2 -name 'ejml*.jar' -o -name 'arpack*.jar' -o -name 'hipparchus*.jar' -o -name 'JTransforms*.jar' -o -name 'JLargeArrays*.jar' -o -name 'commons-math3*.jar' | tr '\n' ':')"
java -cp "$classes" cutaway.benchmarks.demo.DemoKnocks "$takes"
java -cp "$classes" cutaway.benchmarks.population.DemoNoise "$takes"
for wav in "$takes"/*.wav; do
  flac --silent --force -8 --delete-input-file "$wav"
done
for raw in "$takes"/*.raw; do
  flac --silent --force -8 --delete-input-file --force-raw-format --endian=little --sign=signed \
    --channels=4 --bps=24 --sample-rate=48000 -o "${raw%.raw}.flac" "$raw"
done
ls -l "$takes"
