package cutaway.bench;

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
      List.of(
          "measure", "problem", "finding", "take", "sheet", "work", "result", "noise", "exam",
          "dossier");

  @Test
  void arrowsGoUpTheTableOnly() {
    assertThat(CLASSES).isNotEmpty();
    for (int i = 0; i < ORDER.size() - 1; i++) {
      String[] later =
          ORDER.subList(i + 1, ORDER.size()).stream()
              .map(p -> "cutaway.bench." + p + "..")
              .toArray(String[]::new);
      noClasses()
          .that()
          .resideInAPackage("cutaway.bench." + ORDER.get(i) + "..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(later)
          .because("arrows go up the table of ARCHITECTURE.md only")
          .check(CLASSES);
    }
  }

  @Test
  void examsArePure() {
    noClasses()
        .that()
        .resideInAnyPackage("cutaway.bench.exam..", "cutaway.bench.noise..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage("java.time..", "java.net..", "cutaway.bench.dossier..")
        .because("an exam is a function of sheet and takes alone")
        .check(CLASSES);
  }

  @Test
  void acousticsKnowsNoBench() {
    noClasses()
        .that()
        .resideInAPackage("cutaway.acoustics..")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("cutaway.bench..")
        .because("acoustics is a library that somebody could use alone")
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
