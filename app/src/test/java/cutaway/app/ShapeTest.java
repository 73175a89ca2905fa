package cutaway.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The arrows of ARCHITECTURE.md. */
class ShapeTest {
  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("cutaway");

  /** Packages from the one that needs no other to the one that nothing needs. */
  private static final List<String> ORDER =
      List.of("typeset", "chart", "drawing", "report", "summary", "page", "command");

  @Test
  void arrowsGoUpTheTableOnly() {
    assertThat(CLASSES).isNotEmpty();
    for (int i = 0; i < ORDER.size() - 1; i++) {
      String[] later =
          ORDER.subList(i + 1, ORDER.size()).stream()
              .map(p -> "cutaway.app." + p + "..")
              .toArray(String[]::new);
      noClasses()
          .that()
          .resideInAPackage("cutaway.app." + ORDER.get(i) + "..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(later)
          .because("arrows go up the table of ARCHITECTURE.md only")
          .check(CLASSES);
    }
  }

  @Test
  void nothingNeedsTheApp() {
    noClasses()
        .that()
        .resideInAnyPackage("cutaway.bench..", "cutaway.acoustics..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("cutaway.app..")
        .because("page and command line stand on the bench, not under it")
        .check(CLASSES);
  }

  @Test
  void theAppComputesNothing() {
    noClasses()
        .that()
        .resideInAPackage("cutaway.app..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("cutaway.acoustics.driveunit..")
        .because("what is shown comes from findings, so that JSON and page agree")
        .check(CLASSES);
  }

  @Test
  void hasNoCycles() {
    slices()
        .matching("cutaway.(**)")
        .should()
        .beFreeOfCycles()
        .because("a package that needs its user cannot be understood alone")
        .check(CLASSES);
  }
}
