package cutaway.bench;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "cutaway", importOptions = ImportOption.DoNotIncludeTests.class)
class ShapeTest {

  @ArchTest
  static final ArchRule EXAMS_ARE_PURE =
      noClasses()
          .that()
          .resideInAPackage("cutaway.bench.exam..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("java.time..", "java.net..", "cutaway.bench.dossier..")
          .because("an exam is a function of sheet and takes alone");

  @ArchTest
  static final ArchRule ACOUSTICS_KNOWS_NO_BENCH =
      noClasses()
          .that()
          .resideInAPackage("cutaway.acoustics..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("cutaway.bench..")
          .because("acoustics is a library that somebody could use alone");

  @ArchTest
  static final ArchRule HAS_NO_CYCLES =
      slices()
          .matching("cutaway.(**)")
          .should()
          .beFreeOfCycles()
          .because("a package that needs its user cannot be understood alone");
}
