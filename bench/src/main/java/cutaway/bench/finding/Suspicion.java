package cutaway.bench.finding;

import java.util.List;

/**
 * What is believed of a noise.
 *
 * @param conclusion in a sentence or two
 * @param faulty chance that the unit or its wiring has a fault
 * @param suspects all of them, likeliest first
 * @param origins where it comes from, likeliest first
 * @param history the takes in order, and the odds after each
 * @param tests that would tell more, the worthiest first
 * @param shows where and how loud it can be shown to others
 * @param pictures of what is left over in takes with nothing done
 * @param sounds that can be played to others
 * @param cautions before anything is opened
 * @param restsOn ids of takes
 * @param method how, with its sources
 */
public record Suspicion(
    String conclusion,
    double faulty,
    List<SuspectLine> suspects,
    List<Chance> origins,
    List<Step> history,
    List<NextTest> tests,
    List<String> shows,
    List<LeftOver> pictures,
    List<Sound> sounds,
    List<String> cautions,
    List<String> restsOn,
    String method) {
  public Suspicion {
    suspects = List.copyOf(suspects);
    origins = List.copyOf(origins);
    history = List.copyOf(history);
    tests = List.copyOf(tests);
    shows = List.copyOf(shows);
    pictures = List.copyOf(pictures);
    sounds = List.copyOf(sounds);
    cautions = List.copyOf(cautions);
    restsOn = List.copyOf(restsOn);
  }

  /**
   * A suspect.
   *
   * @param id stable: coil-rub
   * @param name in plain words
   * @param chance that it takes part
   * @param speaksFor clues for it, strongest first
   * @param speaksAgainst clues against it, strongest first
   */
  public record SuspectLine(
      String id, String name, double chance, List<Clause> speaksFor, List<Clause> speaksAgainst) {
    public SuspectLine {
      speaksFor = List.copyOf(speaksFor);
      speaksAgainst = List.copyOf(speaksAgainst);
    }
  }

  /**
   * A clue.
   *
   * @param words that say it, with its take and weight
   * @param evidence id of a finding of another exam that it rests on; empty where there is none
   */
  public record Clause(String words, String evidence) {}

  /**
   * A short sound.
   *
   * @param name of its file, without ending
   * @param caption what is heard
   */
  public record Sound(String name, String caption) {}

  /** Something with a chance. */
  public record Chance(String name, double chance) {}

  /**
   * A take, and what was believed after it.
   *
   * @param take its id
   * @param what was done
   * @param first likeliest suspects then
   */
  public record Step(String take, String what, List<Chance> first) {
    public Step {
      first = List.copyOf(first);
    }
  }
}
