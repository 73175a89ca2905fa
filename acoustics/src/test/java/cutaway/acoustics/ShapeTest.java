package cutaway.acoustics;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(
    packages = "cutaway.acoustics",
    importOptions = ImportOption.DoNotIncludeTests.class)
class ShapeTest {

  @ArchTest
  static final ArchRule KNOWS_NO_FILES =
      noClasses()
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "java.io..", "java.nio..", "java.time..", "java.net..", "com.fasterxml..")
          .because("bench reads files and hands over numbers");

  @ArchTest
  static final ArchRule HAS_NO_CYCLES =
      slices()
          .matching("cutaway.(**)")
          .should()
          .beFreeOfCycles()
          .because("a package that needs its user cannot be understood alone");
}
