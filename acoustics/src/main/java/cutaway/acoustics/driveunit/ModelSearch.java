package cutaway.acoustics.driveunit;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Looks for the choice of model that Schwarz's criterion prefers, by changing one alternative at a
 * time until none is better.
 *
 * <p>Readings of mass and volume are left out here, so that a wrong one cannot drag the model with
 * it. Long curves are thinned for the search; the close contenders meet again on all points.
 */
final class ModelSearch {
  private static final double PLAIN_TO_SEE = 30;

  /** Schwarz's criterion tells nothing apart that differs by less. */
  private static final double INDISTINCT = 10;

  private static final int MANY_POINTS = 3000;
  private static final int THINNED_PER_OCTAVE = 40;

  /** Every kind, with a shape to start from, the plainest first. */
  private static final List<Suspension> SUSPENSIONS =
      List.of(
          new Suspension.Plain(),
          new Suspension.Creep(0.05),
          new Suspension.StiffnessSlope(0.05),
          new Suspension.DampingSlope(0.2));

  private final List<Take> bench;
  private final Readings readings;
  private final StartingValues starts;

  ModelSearch(List<Take> bench, Readings readings) {
    this.bench = bench;
    this.readings = readings;
    this.starts = StartingValues.of(bench);
  }

  /** The best choice for the takes, fitted to all their points. */
  static Outcome run(List<Take> bench, Readings readings) {
    int points = bench.stream().mapToInt(t -> t.curve().size()).sum();
    if (points <= MANY_POINTS) {
      ModelSearch search = new ModelSearch(bench, readings);
      return search.withContenders(search.descend());
    }
    List<Take> thinned =
        bench.stream().map(t -> t.withCurve(t.curve().thinned(THINNED_PER_OCTAVE))).toList();
    Candidate rough = new ModelSearch(thinned, readings).descend();
    ModelSearch all = new ModelSearch(bench, readings);
    Candidate best = all.fit(rough.model().choice(), rough);
    best = all.tryAll(best, all.suspensions(best));
    return all.withContenders(all.tryAll(best, all.richerCoils(best)));
  }

  /**
   * What the search found.
   *
   * @param best the preferred choice
   * @param contenders other choices that the data cannot tell from it, with their weight exp(−Δ/2)
   *     against its 1
   */
  record Outcome(Candidate best, List<Contender> contenders) {}

  /**
   * A choice that explains the takes nearly as well.
   *
   * @param candidate the choice, fitted
   * @param weight its weight where the best has 1
   */
  record Contender(Candidate candidate, double weight) {}

  /**
   * Losses that stand for one another (leak, absorption, port, suspension) are told apart by small
   * differences; which of them wins must not decide what is claimed.
   */
  private Outcome withContenders(Candidate best) {
    List<ModelChoice> choices = new ArrayList<>(loads(best));
    choices.addAll(suspensions(best));
    choices.addAll(boxMasses(best));
    choices.addAll(volumes(best));
    List<Contender> out = new ArrayList<>();
    for (Candidate candidate : fitAll(choices, best)) {
      double advantage = best.advantageOf(candidate);
      if (candidate.determined() && advantage > -INDISTINCT) {
        out.add(new Contender(candidate, Math.min(1, Math.exp(advantage / 2))));
      }
    }
    return new Outcome(best, List.copyOf(out));
  }

  private Candidate descend() {
    Candidate best = start();
    ModelChoice before;
    int rounds = 0;
    do {
      before = best.model().choice();
      best = tryAll(best, suspensions(best));
      // before losses are weighed: a volume wrongly shared looks like a loss that is not there
      best = tryAll(best, volumes(best));
      best = tryAll(best, loads(best));
      best = tryAll(best, coils(best));
      best = tryAll(best, supports(best));
      best = tryAll(best, resistances(best));
      best = tryAll(best, boxMasses(best));
      best = tryAll(best, coils(best));
      rounds++;
    } while (!sameKinds(before, best.model().choice()) && rounds < 3);
    return best;
  }

  /** All takes with the kinds of coil and suspension that the first of them shows. */
  private Candidate start() {
    if (bench.size() == 1) {
      return kinds();
    }
    Candidate first = new ModelSearch(bench.subList(0, 1), readings).kinds();
    Layout layout = first.model().layout();
    CoilLoss coil = first.model().choice().coil();
    double[] values = new double[coil.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(first.solution().theta(layout.coil + i));
    }
    Suspension suspension = first.model().choice().suspension();
    return fit(
        plain(
            coil.with(values),
            layout.suspension < 0
                ? suspension
                : suspension.with(first.solution().theta(layout.suspension))),
        null);
  }

  /**
   * Coil and suspension together: each can stand in for the other, and with the wrong suspension a
   * richer coil may settle where the points round the resonance count as outliers.
   */
  private Candidate kinds() {
    List<ModelChoice> choices = new ArrayList<>();
    for (CoilLoss coil : starts.coils()) {
      for (Suspension suspension : SUSPENSIONS) {
        choices.add(plain(coil, suspension));
      }
    }
    Candidate best = null;
    for (Candidate candidate : fitAll(choices, null)) {
      if (best == null || beats(best, candidate)) {
        best = candidate;
      }
    }
    return Objects.requireNonNull(best);
  }

  /** A choice in which nothing but coil and suspension has been decided. */
  private ModelChoice plain(CoilLoss coil, Suspension suspension) {
    List<RearLoad> loads = new ArrayList<>();
    for (Take take : bench) {
      loads.add(take.mounting() instanceof Mounting.Boxed b ? b.load() : new NoLoad());
    }
    return ModelChoice.of(coil, suspension, loads);
  }

  /** Fits each choice on its own, on all processors, and hands them back in their order. */
  private List<Candidate> fitAll(List<ModelChoice> choices, @Nullable Candidate from) {
    return choices.parallelStream().map(choice -> fit(choice, from)).toList();
  }

  private Candidate fit(ModelChoice choice, @Nullable Candidate from) {
    JointModel model = new JointModel(choice, bench, readings, List.of());
    double[] start = starts.theta(choice, model.layout(), readings);
    if (from != null) {
      carryOver(from, model, start);
    }
    return Candidate.fit(model, bench, start);
  }

  /** Starts from what the better-known parameters of an earlier candidate came to. */
  private void carryOver(Candidate from, JointModel to, double[] start) {
    Layout a = from.model().layout();
    Layout b = to.layout();
    double[] theta = from.solution().theta();
    System.arraycopy(theta, 0, start, 0, 4);
    if (from.model().choice().coil().getClass() == to.choice().coil().getClass()) {
      System.arraycopy(theta, a.coil, start, b.coil, to.choice().coil().size());
    }
    copy(theta, a.movingMass, start, b.movingMass);
    copy(theta, a.leads, start, b.leads);
    if (a.supportMass >= 0 && b.supportMass >= 0) {
      System.arraycopy(theta, a.supportMass, start, b.supportMass, 3);
    }
    if (from.model().choice().suspension().getClass() == to.choice().suspension().getClass()) {
      copy(theta, a.suspension, start, b.suspension);
    }
    for (int k = 0; k < bench.size(); k++) {
      Layout.TakeSlots s = a.take(k);
      Layout.TakeSlots t = b.take(k);
      copy(theta, s.addedMass(), start, t.addedMass());
      copy(theta, s.stiffness(), start, t.stiffness());
      copy(theta, s.resistance(), start, t.resistance());
      copy(theta, s.drift(), start, t.drift());
      carryLoad(from.model().choice().loads().get(k), s, theta, to, k, start);
    }
  }

  private static void carryLoad(
      RearLoad old, Layout.TakeSlots s, double[] theta, JointModel to, int k, double[] start) {
    List<String> before = old.symbols();
    List<String> after = to.choice().loads().get(k).symbols();
    int at = to.layout().take(k).load();
    for (int i = 0; i < after.size(); i++) {
      int j = before.indexOf(after.get(i));
      if (j >= 0) {
        // a loss without effect has run off to infinity: bring it back to where it can be felt
        start[at + i] =
            after.get(i).equals("f_b")
                ? theta[s.load() + j]
                : Math.min(theta[s.load() + j], Math.log(200));
      }
    }
  }

  private static void copy(double[] from, int a, double[] to, int b) {
    if (a >= 0 && b >= 0) {
      to[b] = from[a];
    }
  }

  private Candidate tryAll(Candidate best, List<ModelChoice> choices) {
    Candidate winner = best;
    for (Candidate candidate : fitAll(choices, best)) {
      if (beats(winner, candidate)) {
        winner = candidate;
      }
    }
    return winner;
  }

  /** A second resonance is an extra claim about the bench, so it must be plain to see. */
  private static boolean beats(Candidate winner, Candidate candidate) {
    if (winner.determined() && !candidate.determined()) {
      return false;
    }
    boolean moreSupport =
        candidate.model().choice().springySupport() && !winner.model().choice().springySupport();
    return moreSupport
        ? candidate.supportIsResolved() && winner.advantageOf(candidate) > PLAIN_TO_SEE
        : winner.advantageOf(candidate) > 0;
  }

  private List<ModelChoice> suspensions(Candidate best) {
    ModelChoice choice = best.model().choice();
    return SUSPENSIONS.stream()
        .filter(s -> s.getClass() != choice.suspension().getClass())
        .map(choice::withSuspension)
        .toList();
  }

  private List<ModelChoice> loads(Candidate best) {
    ModelChoice choice = best.model().choice();
    List<ModelChoice> out = new ArrayList<>();
    for (int k = 0; k < bench.size(); k++) {
      for (RearLoad load : choice.loads().get(k).alternatives()) {
        if (!load.equals(choice.loads().get(k))) {
          out.add(choice.withLoad(k, load));
        }
      }
    }
    return out;
  }

  private List<ModelChoice> supports(Candidate best) {
    ModelChoice choice = best.model().choice();
    boolean held = choice.loads().stream().anyMatch(l -> l instanceof NoLoad);
    return held ? List.of(choice.withSpringySupport(!choice.springySupport())) : List.of();
  }

  private List<ModelChoice> resistances(Candidate best) {
    ModelChoice choice = best.model().choice();
    List<ModelChoice> out = new ArrayList<>();
    for (int k = 1; k < bench.size(); k++) {
      out.add(choice.withOwnResistance(k, !choice.ownResistance().get(k)));
    }
    return out;
  }

  private List<ModelChoice> boxMasses(Candidate best) {
    ModelChoice choice = best.model().choice();
    List<ModelChoice> out = new ArrayList<>();
    boolean freeAir = choice.loads().stream().anyMatch(l -> l instanceof NoLoad);
    for (int k = 0; freeAir && k < bench.size(); k++) {
      if (!(choice.loads().get(k) instanceof NoLoad)) {
        out.add(choice.withBoxAirMass(k, !choice.boxAirMass().get(k)));
      }
    }
    return out;
  }

  /** The unit's box may hold more air in one take than in another: lining, a plug in the port. */
  private List<ModelChoice> volumes(Candidate best) {
    ModelChoice choice = best.model().choice();
    List<ModelChoice> out = new ArrayList<>();
    boolean another = false;
    for (int k = 0; k < bench.size(); k++) {
      if (bench.get(k).mounting() instanceof Mounting.Boxed b && b.volume().isEmpty()) {
        if (another) {
          out.add(choice.withOwnVolume(k, !choice.ownVolume().get(k)));
        }
        another = true;
      }
    }
    return out;
  }

  private List<ModelChoice> coils(Candidate best) {
    ModelChoice choice = best.model().choice();
    return starts.coils().stream()
        .filter(c -> c.getClass() != choice.coil().getClass())
        .map(choice::withCoil)
        .toList();
  }

  private List<ModelChoice> richerCoils(Candidate best) {
    int size = best.model().choice().coil().size();
    return coils(best).stream().filter(c -> c.coil().size() > size).toList();
  }

  private static boolean sameKinds(ModelChoice a, ModelChoice b) {
    return a.coil().getClass() == b.coil().getClass()
        && a.suspension().getClass() == b.suspension().getClass()
        && a.springySupport() == b.springySupport()
        && a.ownResistance().equals(b.ownResistance())
        && a.loads().equals(b.loads())
        && a.boxAirMass().equals(b.boxAirMass())
        && a.ownVolume().equals(b.ownVolume());
  }
}
