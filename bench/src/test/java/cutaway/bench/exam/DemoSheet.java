package cutaway.bench.exam;

/** The demo's sheet with parts taken out. */
final class DemoSheet {
  private DemoSheet() {}

  /** A plain rectangular box: no taper, batten, sheet or lining. */
  static String plain(String sheet) {
    return sheet
        .replaceAll("(?m)^  back: .*\n", "")
        .replace("lining: lined walls", "lining: none")
        .replace("height: 375 mm", "height: 360 mm")
        .replaceAll("(?s)    - name: left\n.*?\ntakes:", "\ntakes:");
  }

  /** Without knocks, and without claims that rest on them. */
  static String withoutKnocks(String sheet) {
    return sheet
        .replaceAll("(?s)  - id: knock-left\n.*?wall: top \\}\n", "")
        .replaceAll("(?m)^  - .*about: walls.*\n", "");
  }
}
