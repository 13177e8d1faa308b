package chainage;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The packages and the directions they may look in, as the table in DEVELOPERS.md has them. */
class ArchitectureTest {
    private static final String ROOT = "chainage.";
    private static final String TESTS = ArchitectureTest.class
            .getProtectionDomain()
            .getCodeSource()
            .getLocation()
            .getPath();

    private static final JavaClasses CLASSES = new ClassFileImporter()
            .withImportOption(location -> !location.contains(TESTS))
            .importPackages("chainage");

    private static final Map<String, Row> TABLE = table();

    /**
     * A row of the table in DEVELOPERS.md.
     *
     * @param outside what of the outside it touches
     * @param mayUse the other packages of ours
     */
    private record Row(String outside, Set<String> mayUse) {}

    private static Map<String, Row> table() {
        List<String[]> rows;
        try (Stream<String> lines = Files.lines(Path.of("DEVELOPERS.md"))) {
            rows = lines.dropWhile(l -> !l.equals("## Packages"))
                    .skip(1)
                    .takeWhile(l -> !l.startsWith("## "))
                    .filter(l -> l.startsWith("| `"))
                    .map(l -> l.substring(2, l.length() - 2).split(" \\| "))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        Set<String> all = rows.stream().map(r -> r[0].replace("`", "")).collect(Collectors.toSet());
        Map<String, Row> table = new TreeMap<>();
        for (String[] r : rows) {
            Set<String> mayUse = switch (r[3]) {
                case "–" -> Set.of();
                case "everything" -> all;
                default -> Set.of(r[3].split(", "));
            };
            assertTrue(all.containsAll(mayUse), () -> r[0] + " uses what is in no row: " + r[3]);
            assertTrue(Set.of("–", "streams", "machine", "loopback").contains(r[2]), () -> r[0] + " touches " + r[2]);
            table.put(r[0].replace("`", ""), new Row(r[2], mayUse));
        }
        return table;
    }

    /** The packages whose rows name one of these. */
    private static String[] touching(String... outside) {
        return packages(TABLE.entrySet().stream()
                .filter(e -> List.of(outside).contains(e.getValue().outside()))
                .map(Map.Entry::getKey));
    }

    private static String[] packages(Stream<String> names) {
        return names.map(n -> ROOT + n + "..").toArray(String[]::new);
    }

    @TestFactory
    Stream<DynamicTest> eachPackageUsesOnlyItsRow() {
        return TABLE.entrySet().stream()
                .map(row -> dynamicTest(
                        row.getKey(),
                        () -> noClasses()
                                .that()
                                .resideInAPackage(ROOT + row.getKey() + "..")
                                .should()
                                .dependOnClassesThat()
                                .resideInAnyPackage(packages(TABLE.keySet().stream()
                                        .filter(other -> !other.equals(row.getKey())
                                                && !row.getValue().mayUse().contains(other))))
                                .check(CLASSES)));
    }

    /** A row that allows what nobody does is not known to be true; of the last row, all is. */
    @TestFactory
    Stream<DynamicTest> eachPackageUsesAllOfItsRow() {
        Map<String, Set<String>> uses = uses(CLASSES, c -> packageOf(c.getPackageName()));
        return TABLE.entrySet().stream()
                .filter(row -> row.getValue().mayUse().size() < TABLE.size())
                .map(row -> dynamicTest(row.getKey(), () -> {
                    Set<String> idle = new TreeSet<>(row.getValue().mayUse());
                    idle.removeAll(uses.getOrDefault(row.getKey(), Set.of()));
                    assertEquals(Set.of(), idle, row.getKey() + " uses none of these");
                }));
    }

    private static String packageOf(String name) {
        return name.replaceFirst("^chainage\\.", "").replaceFirst("\\..*", "");
    }

    @Test
    void everyPackageIsInTheTable() {
        Set<String> found = CLASSES.stream()
                .map(JavaClass::getPackageName)
                .map(ArchitectureTest::packageOf)
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(TABLE.keySet(), found);
    }

    /** Without a locale, digits are those of wherever the program runs. */
    @Test
    void noTextIsFormattedWithoutALocale() {
        noClasses()
                .should()
                .callMethod(String.class, "format", String.class, Object[].class)
                .orShould()
                .callMethod(String.class, "formatted", Object[].class)
                .check(CLASSES);
    }

    @Test
    void noCycles() {
        slices().matching(ROOT + "(*)..").should().beFreeOfCycles().check(CLASSES);
    }

    /** The readers of ride files alone use what lies in front of them, which nobody else may pass: see below. */
    @Test
    void noCyclesBetweenPackagesInsideOne() {
        slices().matching(ROOT + "(**)")
                .should()
                .beFreeOfCycles()
                .check(CLASSES.that(
                        DescribedPredicate.not(JavaClass.Predicates.resideInAPackage(ROOT + "ridefile.."))));
    }

    /** No package is so large that nobody sees over it; lines of ours, blanks and comments among them. */
    @TestFactory
    Stream<DynamicTest> noPackageIsTooLarge() throws IOException {
        Map<String, Long> lines = new TreeMap<>();
        try (Stream<Path> files = Files.walk(Path.of("src/main/java/chainage"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                try (Stream<String> text = Files.lines(file)) {
                    lines.merge(
                            String.valueOf(Path.of("src/main/java/chainage").relativize(file.getParent())),
                            text.count(),
                            Long::sum);
                }
            }
        }
        return lines.entrySet().stream()
                .map(e -> dynamicTest(
                        e.getKey(),
                        () -> assertTrue(
                                e.getValue() <= (e.getKey().equals("cli") ? 5500 : 4000),
                                () -> e.getKey() + " has " + e.getValue() + " lines")));
    }

    @Test
    void noRingOfManyClasses() {
        assertEquals(Set.of(), rings(CLASSES), "these use each other in a ring");
    }

    /** The rule above sees a ring. */
    @Test
    void aRingIsSeen() {
        JavaClasses four = new ClassFileImporter().importClasses(A.class, B.class, C.class, D.class, Alone.class);
        Map<String, Set<String>> uses = uses(four, JavaClass::getSimpleName);
        assertEquals(Set.of(Set.of("A", "B", "C", "D")), rings(uses));
    }

    record A(B b) {}

    record B(C c) {}

    record C(D d) {}

    record D(Object a) {
        D {
            assert !(a instanceof A);
        }
    }

    record Alone(A a) {}

    /** All sets of more than three classes of which each reaches each; a class stands for all that is nested in it. */
    private static Set<Set<String>> rings(JavaClasses classes) {
        return rings(uses(classes, c -> c.getName().replaceFirst("\\$.*", ""))).stream()
                .map(ring -> ring.stream()
                        .map(n -> n.substring(n.lastIndexOf('.') + 1))
                        .collect(Collectors.<String, Set<String>>toCollection(TreeSet::new)))
                .collect(Collectors.toSet());
    }

    private static Map<String, Set<String>> uses(JavaClasses classes, Function<JavaClass, String> name) {
        Map<String, Set<String>> uses = new TreeMap<>();
        for (JavaClass c : classes) {
            Set<String> used = uses.computeIfAbsent(name.apply(c), n -> new TreeSet<>());
            c.getDirectDependenciesFromSelf().stream()
                    .map(d -> d.getTargetClass().getBaseComponentType())
                    .filter(classes::contains)
                    .map(name)
                    .forEach(used::add);
        }
        return uses;
    }

    private static Set<Set<String>> rings(Map<String, Set<String>> uses) {
        Map<String, Set<String>> reached = new TreeMap<>();
        uses.keySet().forEach(c -> reached.put(c, reach(c, uses)));
        return uses.keySet().stream()
                .map(c -> reached.getOrDefault(c, Set.of()).stream()
                        .filter(other -> reached.getOrDefault(other, Set.of()).contains(c))
                        .collect(Collectors.<String, Set<String>>toCollection(TreeSet::new)))
                .filter(ring -> ring.size() > 3)
                .collect(Collectors.toSet());
    }

    private static Set<String> reach(String from, Map<String, Set<String>> uses) {
        Set<String> reached = new TreeSet<>();
        Deque<String> next = new ArrayDeque<>(uses.getOrDefault(from, Set.of()));
        while (!next.isEmpty()) {
            String c = next.pop();
            if (reached.add(c)) {
                next.addAll(uses.getOrDefault(c, Set.of()));
            }
        }
        return reached;
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
                home("com.ctc.wstx..", "ridefile.xml"),
                home("org.codehaus.stax2..", "ridefile.xml"),
                home("org.apache.commons.statistics..", "inference"),
                home("com.fasterxml.jackson..", "evidence", "render", "store"),
                home("de.siegmar.fastcsv..", "render", "table", "weather"),
                home("net.sf.geographiclib..", "course", "ride"),
                home("gg.jte..", "page"),
                home("picocli..", "cli", "command", "bookkeeping", "served"),
                home("com.sun.net.httpserver..", "loopback"),
                home("java.util.concurrent..", "host", "importer", "loopback"));
    }

    private static DynamicTest home(String outside, String... homes) {
        // Functional types and concurrent collections are not threads; callables belong to picocli's contract.
        return dynamicTest(outside, () -> {
            if (outside.startsWith("java.util.concurrent")) {
                noClasses()
                        .that()
                        .resideOutsideOfPackages(packages(Stream.of(homes)))
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
                        .resideOutsideOfPackages(packages(Stream.of(homes)))
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
                .resideInAnyPackage(touching("–"))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.io..", "java.nio.file..", "java.net..")
                .check(CLASSES);
    }

    @Test
    void whoIsHandedStreamsOpensNone() {
        noClasses()
                .that()
                .resideInAnyPackage(touching("streams"))
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.io\\.(File.*|RandomAccessFile)|java\\.nio\\.file\\..*|java\\.net\\..*")
                .check(CLASSES);
    }

    /**
     * Nothing leaves the machine: only names of places are taken from the platform's network package, but for what
     * answers browsers, which may name where it listens.
     */
    @Test
    void nothingReachesForTheNetwork() {
        noNetwork("(?!)")
                .check(CLASSES.that(
                        DescribedPredicate.not(JavaClass.Predicates.resideInAnyPackage(touching("loopback")))));
        noNetwork("java\\.net\\.Inet(Socket)?Address|com\\.sun\\.net\\.httpserver\\..*")
                .check(CLASSES);
    }

    private static ArchRule noNetwork(String but) {
        return noClasses()
                .should()
                .dependOnClassesThat()
                .haveNameMatching(
                        "(?!(?:" + but + ")$)(?:java\\.net\\.(?!URI$|URISyntaxException$).*|javax\\.net\\..*"
                                + "|java\\.net\\.http\\..*|com\\.sun\\.net\\..*|java\\.rmi\\..*|javax\\.naming\\..*|java\\.nio\\.channels\\..*Socket.*)");
    }

    /** The rule above sees each of the ways out. */
    @ParameterizedTest
    @ValueSource(classes = {Calls.class, Fetches.class, Listens.class, Asks.class, Serves.class})
    void whatReachesForTheNetworkIsSeen(Class<?> reaching) {
        JavaClasses classes = new ClassFileImporter().importClasses(reaching);
        assertThrows(AssertionError.class, () -> noNetwork("(?!)").check(classes));
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

    static final class Serves {
        static Object serve() throws java.io.IOException {
            return com.sun.net.httpserver.HttpServer.create();
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
                .resideInAnyPackage(touching("–", "streams"))
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

    /** Other clocks, other chances, and what the surroundings say; chance with a seed is none. */
    @Test
    void theCoreAsksNothingOfItsSurroundings() {
        noClasses()
                .that()
                .resideInAnyPackage(touching("–", "streams"))
                .should()
                .callMethod(java.time.LocalDateTime.class, "now")
                .orShould()
                .callMethod(java.time.ZonedDateTime.class, "now")
                .orShould()
                .callMethod(java.time.OffsetDateTime.class, "now")
                .orShould()
                .callMethod(java.time.Clock.class, "systemUTC")
                .orShould()
                .callMethod(java.time.Clock.class, "systemDefaultZone")
                .orShould()
                .callConstructor(java.util.Random.class)
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.security.SecureRandom")
                .orShould()
                .callMethod(System.class, "getenv")
                .orShould()
                .callMethod(System.class, "getenv", String.class)
                .orShould()
                .callMethod(System.class, "getProperty", String.class)
                .orShould()
                .callMethod(System.class, "getProperty", String.class, String.class)
                .check(CLASSES);
    }

    /** Other programs are started by the machine's own package alone. */
    @Test
    void otherProgramsAreStartedInOnePlace() {
        noClasses()
                .that()
                .resideOutsideOfPackage(ROOT + "host..")
                .should()
                .dependOnClassesThat()
                .areAssignableTo(ProcessBuilder.class)
                .orShould()
                .callMethod(Runtime.class, "exec", String.class)
                .orShould()
                .callMethod(Runtime.class, "exec", String[].class)
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

    /** What follows for the rider is said in {@code answer}; who reads files may say how one is mended. */
    @Test
    void modelsNameNoCommand() throws IOException {
        Pattern command = Pattern.compile("\"[^\"]*(\\bchainage [a-z]|--[a-z])[^\"]*\"");
        List<String> found = new ArrayList<>();
        for (String model : List.of(
                "quantity",
                "ride",
                "ledger",
                "attribution",
                "condition",
                "drivetrain",
                "exposure",
                "inference",
                "treatment",
                "friction",
                "meter",
                "course",
                "wear",
                "comparison",
                "standing",
                "cost",
                "plan",
                "analysis",
                "weather",
                "calendar")) {
            try (Stream<Path> files = Files.walk(Path.of("src/main/java/chainage", model))) {
                for (Path file : files.filter(Files::isRegularFile).toList()) {
                    command.matcher(Files.readString(file)).results().forEach(m -> found.add(file + ": " + m.group()));
                }
            }
        }
        assertEquals(List.of(), found);
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
