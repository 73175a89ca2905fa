package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Evidence;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;

/** What is believed of a unit after some takes. */
public final class Belief {
  /** Outcomes that are drawn to see what a test would tell; more change it by under 0.03 bit. */
  private static final int DRAWS = 400;

  /**
   * A cause that no take would show, against one that some take would: testers record what they
   * hear; judgement.
   */
  private static final double UNSOUGHT = Math.log(0.3);

  private final SuspectNetwork network;
  private final double[] log;
  private final Set<Family> looked;

  Belief(SuspectNetwork network, double[] log) {
    this(network, log, Set.of());
  }

  private Belief(SuspectNetwork network, double[] log, Set<Family> looked) {
    this.network = network;
    this.log = log;
    this.looked = looked;
  }

  /** After one more take. */
  public Belief and(List<Evidence> take) {
    double[] out = log.clone();
    Set<Family> families = EnumSet.noneOf(Family.class);
    families.addAll(looked);
    for (Evidence e : Relevant.of(take)) {
      network.add(e, out);
      families.add(e.family());
    }
    return new Belief(network, out, families);
  }

  /** Chances of all suspects. */
  public Odds odds() {
    return Odds.of(network.hypotheses(), chances(sought()));
  }

  /**
   * Logarithms of the chances, with what no take was made to hear brought down; not where takes
   * show nothing but their own flaws, and so looked for nothing.
   */
  private double[] sought() {
    double[] out = log.clone();
    if (Set.of(Family.FLAWS).containsAll(looked)) {
      return out;
    }
    for (int i = 0; i < out.length; i++) {
      for (Cause c : network.hypotheses().get(i)) {
        out[i] += looked.stream().anyMatch(c::disturbs) ? 0 : UNSOUGHT;
      }
    }
    return out;
  }

  /**
   * What a take not yet made is expected to tell of who it is, bits: the entropy over sets of
   * suspects now less the mean of what it would be, over outcomes drawn as likely as they are held
   * to be. The same each time.
   *
   * @param intervention what would be done
   * @param families of clues it would bring
   */
  public double expectedBits(Intervention intervention, List<Family> families) {
    double[] sought = sought();
    double[] chance = chances(sought);
    int[] group = groups();
    double now = entropy(chance, group);
    Random random = new Random(1);
    double after = 0;
    for (int i = 0; i < DRAWS; i++) {
      List<Cause> truth = network.hypotheses().get(drawn(chance, random));
      double[] then = sought.clone();
      for (Family family : families) {
        network.add(outcome(truth, family, intervention, random), then);
      }
      after += entropy(chances(then), group) / DRAWS;
    }
    return Math.max(0, now - after);
  }

  private Evidence outcome(List<Cause> truth, Family family, Intervention done, Random random) {
    List<Cause> active = truth.stream().filter(c -> c.disturbs(family)).toList();
    Optional<Cause> cause =
        active.isEmpty()
            ? Optional.empty()
            : Optional.of(active.get(random.nextInt(active.size())));
    return network.likelihoods().draw(cause, family, done, random);
  }

  private static int drawn(double[] chance, Random random) {
    double left = random.nextDouble();
    int at = 0;
    while (at < chance.length - 1 && left >= chance[at]) {
      left -= chance[at++];
    }
    return at;
  }

  /** Which hypotheses name the same suspects. */
  private int[] groups() {
    Map<Object, Integer> numbers = new HashMap<>();
    return network.hypotheses().stream()
        .map(h -> h.stream().map(Cause::suspect).collect(Collectors.toSet()))
        .mapToInt(s -> numbers.computeIfAbsent(s, k -> numbers.size()))
        .toArray();
  }

  private static double entropy(double[] chance, int[] group) {
    double[] sums = new double[Arrays.stream(group).max().orElse(0) + 1];
    for (int i = 0; i < chance.length; i++) {
      sums[group[i]] += chance[i];
    }
    double out = 0;
    for (double p : sums) {
      out -= p > 0 ? p * Math.log(p) / Math.log(2) : 0;
    }
    return out;
  }

  private static double[] chances(double[] log) {
    double most = Arrays.stream(log).max().orElse(0);
    double[] out = Arrays.stream(log).map(l -> Math.exp(l - most)).toArray();
    double sum = Arrays.stream(out).sum();
    return Arrays.stream(out).map(p -> p / sum).toArray();
  }
}
