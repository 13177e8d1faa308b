package chainage;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The packages and the directions they may look in. */
class ArchitectureTest {
    private static final String ROOT = "chainage.";
    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("chainage");

    /** What each package may use besides itself and the platform; the table of DEVELOPERS.md. */
    private static final Map<String, Set<String>> MAY_USE = new TreeMap<>(Map.ofEntries(
            Map.entry("quantity", Set.of()),
            Map.entry("ride", Set.of("quantity")),
            Map.entry("ledger", Set.of("quantity")),
            Map.entry("ridefile", Set.of("quantity", "ride")),
            Map.entry("weather", Set.of("quantity")),
            Map.entry("attribution", Set.of("quantity", "ride", "ledger")),
            Map.entry("condition", Set.of("quantity", "ride", "ledger", "weather")),
            Map.entry("drivetrain", Set.of("quantity", "ride", "ledger")),
            Map.entry("exposure", Set.of("quantity", "ride", "ledger", "attribution", "condition", "drivetrain")),
            Map.entry("inference", Set.of()),
            Map.entry("manual", Set.of()),
            Map.entry("treatment", Set.of("quantity", "ledger", "exposure", "inference")),
            Map.entry("friction", Set.of("quantity", "ride", "ledger", "attribution", "drivetrain", "exposure")),
            Map.entry("course", Set.of("quantity", "ride")),
            Map.entry("wear", Set.of("quantity", "ledger", "exposure", "inference")),
            Map.entry("cost", Set.of("quantity", "ride", "ledger", "attribution", "exposure", "treatment", "friction")),
            Map.entry(
                    "standing",
                    Set.of(
                            "quantity",
                            "ride",
                            "ledger",
                            "attribution",
                            "condition",
                            "drivetrain",
                            "exposure",
                            "inference",
                            "treatment",
                            "wear")),
            Map.entry("comparison", Set.of("quantity", "ledger", "exposure", "inference", "treatment", "wear")),
            Map.entry("plan", Set.of("quantity", "ledger", "exposure", "treatment", "wear", "standing", "cost")),
            Map.entry(
                    "analysis",
                    Set.of(
                            "quantity",
                            "ride",
                            "ledger",
                            "attribution",
                            "condition",
                            "drivetrain",
                            "exposure",
                            "treatment",
                            "wear",
                            "friction",
                            "standing",
                            "cost",
                            "course",
                            "comparison",
                            "weather")),
            Map.entry("render", Set.of("quantity", "page", "standing")),
            Map.entry(
                    "answer",
                    Set.of(
                            "quantity",
                            "ride",
                            "ledger",
                            "attribution",
                            "condition",
                            "drivetrain",
                            "exposure",
                            "inference",
                            "treatment",
                            "wear",
                            "friction",
                            "course",
                            "comparison",
                            "cost",
                            "standing",
                            "plan",
                            "weather",
                            "analysis",
                            "page",
                            "render")),
            Map.entry("store", Set.of("quantity", "ride", "ledger", "weather", "analysis")),
            Map.entry("page", Set.of("quantity")),
            Map.entry("importer", Set.of("quantity", "ride", "ridefile")),
            Map.entry("calendar", Set.of()),
            Map.entry("nightly", Set.of()),
            Map.entry(
                    "cli",
                    Set.of(
                            "quantity",
                            "ride",
                            "ledger",
                            "ridefile",
                            "attribution",
                            "condition",
                            "drivetrain",
                            "exposure",
                            "inference",
                            "manual",
                            "treatment",
                            "wear",
                            "friction",
                            "course",
                            "comparison",
                            "cost",
                            "standing",
                            "plan",
                            "store",
                            "weather",
                            "importer",
                            "calendar",
                            "nightly",
                            "page",
                            "analysis",
                            "answer",
                            "render"))));

    private static final String[] CORE = {
        "quantity",
        "ride",
        "ledger",
        "attribution",
        "condition",
        "drivetrain",
        "exposure",
        "treatment",
        "wear",
        "friction",
        "course",
        "comparison",
        "cost",
        "standing",
        "weather",
        "calendar",
        "nightly",
        "plan",
        "page",
        "analysis",
        "answer"
    };

    private static String[] packages(Stream<String> names) {
        return names.map(n -> ROOT + n + "..").toArray(String[]::new);
    }

    @TestFactory
    Stream<DynamicTest> eachPackageUsesOnlyItsRow() {
        return MAY_USE.keySet().stream()
                .map(p -> dynamicTest(
                        p,
                        () -> noClasses()
                                .that()
                                .resideInAPackage(ROOT + p + "..")
                                .should()
                                .dependOnClassesThat()
                                .resideInAnyPackage(packages(MAY_USE.keySet().stream()
                                        .filter(other -> !other.equals(p)
                                                && !MAY_USE.getOrDefault(p, Set.of())
                                                        .contains(other))))
                                .check(CLASSES)));
    }

    @Test
    void everyPackageIsInTheTable() {
        Set<String> found = CLASSES.stream()
                .map(JavaClass::getPackageName)
                .map(n -> n.replaceFirst("^chainage\\.", "").replaceFirst("\\..*", ""))
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(MAY_USE.keySet(), found);
    }

    @Test
    void noCycles() {
        slices().matching(ROOT + "(*)..").should().beFreeOfCycles().check(CLASSES);
    }

    @Test
    void onlyTheReadersInsideAreReachedThroughTheirFront() {
        noClasses()
                .that()
                .resideOutsideOfPackage(ROOT + "ridefile..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(ROOT + "ridefile.*..")
                .check(CLASSES);
    }

    @TestFactory
    Stream<DynamicTest> eachOutsideThingHasOneHome() {
        return Stream.of(
                home("java.sql..", "store"),
                home("org.sqlite..", "store"),
                home("com.garmin.fit..", "ridefile.fit"),
                home("javax.xml.stream..", "ridefile"),
                home("org.apache.commons.statistics..", "inference"),
                home("gg.jte..", "page"),
                home("picocli..", "cli"),
                home("java.util.concurrent..", "importer"));
    }

    private static DynamicTest home(String outside, String home) {
        // Functional types and concurrent collections are not threads; callables belong to picocli's contract.
        return dynamicTest(outside, () -> {
            if (outside.startsWith("java.util.concurrent")) {
                noClasses()
                        .that()
                        .resideOutsideOfPackages(ROOT + home + "..")
                        .should()
                        .dependOnClassesThat()
                        .haveNameMatching("java\\.util\\.concurrent\\.(.*Executor.*|.*Queue|.*Future|ForkJoin.*)")
                        .orShould()
                        .dependOnClassesThat()
                        .areAssignableTo(Thread.class)
                        .check(CLASSES);
            } else {
                noClasses()
                        .that()
                        .resideOutsideOfPackage(ROOT + home + "..")
                        .should()
                        .dependOnClassesThat()
                        .resideInAPackage(outside)
                        .check(CLASSES);
            }
        });
    }

    @Test
    void theCoreTouchesNothingOutside() {
        noClasses()
                .that()
                .resideInAnyPackage(packages(Stream.of(CORE)))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.io..", "java.nio.file..", "java.net..")
                .check(CLASSES);
    }

    /** Nothing leaves the machine: only names of places are taken from the platform's network package. */
    @Test
    void nothingReachesForTheNetwork() {
        noNetwork().check(CLASSES);
    }

    private static ArchRule noNetwork() {
        return noClasses()
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.net\\.(?!URI$|URISyntaxException$).*|javax\\.net\\..*|java\\.net\\.http\\..*"
                        + "|java\\.rmi\\..*|javax\\.naming\\..*|java\\.nio\\.channels\\..*Socket.*");
    }

    /** The rule above sees each of the ways out. */
    @ParameterizedTest
    @ValueSource(classes = {Calls.class, Fetches.class, Listens.class, Asks.class})
    void whatReachesForTheNetworkIsSeen(Class<?> reaching) {
        JavaClasses classes = new ClassFileImporter().importClasses(reaching);
        assertThrows(AssertionError.class, () -> noNetwork().check(classes));
    }

    static final class Calls {
        final java.net.Socket socket = new java.net.Socket();
    }

    static final class Fetches {
        static Object fetch(java.net.URI from) throws java.io.IOException {
            return from.toURL().openStream();
        }
    }

    static final class Listens {
        static Object listen() throws java.io.IOException {
            return java.nio.channels.ServerSocketChannel.open();
        }
    }

    static final class Asks {
        static Object ask() {
            return java.net.http.HttpClient.newHttpClient();
        }
    }

    @Test
    void theCoreReadsNoClockAndNoChance() {
        noClasses()
                .that()
                .resideInAnyPackage(packages(Stream.concat(Stream.of(CORE), Stream.of("ridefile"))))
                .should()
                .callMethod(java.time.Instant.class, "now")
                .orShould()
                .callMethod(java.time.LocalDate.class, "now")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .callMethod(java.time.ZoneId.class, "systemDefault")
                .orShould()
                .callMethod(Math.class, "random")
                .check(CLASSES);
    }

    @Test
    void onlyTheCommandLineSpeaksToTheTerminal() {
        noClasses()
                .that()
                .resideOutsideOfPackage(ROOT + "cli..")
                .should()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .orShould()
                .callMethod(System.class, "exit", int.class)
                .check(CLASSES);
    }

    @Test
    void noHeapOfLeftovers() {
        classes()
                .should()
                .resideOutsideOfPackages(
                        "..util..", "..common..", "..impl..", "..service..", "..model..", "..manager..")
                .check(CLASSES);
    }
}
