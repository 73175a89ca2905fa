package cutaway.app;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "cutaway", importOptions = ImportOption.DoNotIncludeTests.class)
class ShapeTest {

  @ArchTest
  static final ArchRule NOTHING_NEEDS_THE_APP =
      noClasses()
          .that()
          .resideInAnyPackage("cutaway.bench..", "cutaway.acoustics..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("cutaway.app..")
          .because("page and command line stand on the bench, not under it");

  @ArchTest
  static final ArchRule THE_APP_COMPUTES_NOTHING =
      noClasses()
          .that()
          .resideInAPackage("cutaway.app..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("cutaway.acoustics.driveunit..")
          .because("what is shown comes from findings, so that JSON and page agree");

  @ArchTest
  static final ArchRule HAS_NO_CYCLES =
      slices()
          .matching("cutaway.(**)")
          .should()
          .beFreeOfCycles()
          .because("a package that needs its user cannot be understood alone");
}
