package chainage.ridefile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import chainage.TestLedger;
import chainage.condition.Condition;
import chainage.condition.Evidence;
import chainage.ledger.Moisture;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.Ride.MetresFrom;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * Reads a folder of ride files and compares every row of its {@code expected.csv}: what other decoders read from them.
 * How those values were made stands in {@code SOURCES.md} beside it. Run with {@code -Dcorpus=DIR}.
 */
@EnabledIfSystemProperty(named = "corpus", matches = ".+")
class CorpusTest {
    private static final Instant LATEST = Instant.parse("2027-01-01T00:00:00Z");

    /**
     * Rows whose start we hold to be another: file → the instants it must lie between.
     *
     * <p>rider-a-2015-08-12-0249.fit: the row gives the session's start as written, but the clock was wrong at first.
     * After 102 s the records jump 204.5 hours, from 12 August to 2015-08-20T15:21:34Z, while the session states 8,714 s
     * elapsed; the same rider's ride of the 21st follows. So it began no later than the first record after the jump and
     * no earlier than 102 s before that.
     */
    private static final Map<String, List<String>> OTHER_START =
            Map.of("fit/rider-a-2015-08-12-0249.fit", List.of("2015-08-20T15:19:52Z", "2015-08-20T15:21:34Z"));

    /** Why the malformed rows at hand give no activity; the notes of their rows say the same in other words. */
    private static final Map<String, String> REASONS = Map.of(
            "gpx/malformed-not-xml.gpx", "neither FIT, GPX nor TCX",
            "gpx/malformed-truncated.gpx", "the XML ends too early at line 58",
            // An undeclared prefix is read over; its points have no times.
            "gpx/malformed-unbound-prefix.gpx", "no times",
            "tcx/malformed-empty-lap.tcx", "no times",
            "tcx/malformed-no-activities.tcx", "no activities",
            "tcx/malformed-unclosed.tcx", "the XML is broken at line",
            "tcx/malformed-words-in-numbers.tcx", "are not numbers");

    private final Path folder = Path.of(System.getProperty("corpus", "."));
    private final Map<String, Outcome> read = new LinkedHashMap<>();

    private record Outcome(
            @Nullable Decoded decoded, @Nullable RideFileException refused) {
        List<Ride> activities() {
            return decoded == null ? List.of() : decoded.activities();
        }

        List<Decoded.Passed> passed() {
            return decoded == null ? List.of() : decoded.passed();
        }

        /** Why there is no activity at a place; empty when nothing says so. */
        String reason(int session) {
            return refused != null
                    ? refused.what()
                    : passed().stream()
                            .filter(p -> p.session() == session)
                            .map(Decoded.Passed::what)
                            .findAny()
                            .orElse("");
        }

        /** In short, and without anybody's positions. */
        String facts() {
            return refused != null
                    ? "refused: " + refused.what()
                    : activities().size() + " activities, passed over: "
                            + passed().stream().map(Decoded.Passed::what).toList();
        }

        @Nullable
        Ride ride(int session) {
            return activities().stream()
                    .filter(r -> r.key().session() == session)
                    .findAny()
                    .orElse(null);
        }
    }

    private Outcome outcome(String file) {
        return read.computeIfAbsent(file, f -> {
            try {
                return new Outcome(RideFiles.decode(Files.readAllBytes(folder.resolve(f)), LATEST), null);
            } catch (RideFileException e) {
                return new Outcome(null, e);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
    }

    @TestFactory
    Stream<DynamicTest> rows() throws IOException {
        List<Row> rows = Row.read(folder.resolve("expected.csv"));
        return rows.stream().map(row -> dynamicTest(row.file + "#" + row.session, () -> check(row)));
    }

    /**
     * A real ride with current weather in its file gets the condition that the table of the FIT profile's words
     * documents; forecasts in the same file change nothing.
     */
    @Test
    void weatherInRealFilesGivesTheDocumentedCondition() throws IOException {
        Map<String, String> wet = new HashMap<>();
        Files.readAllLines(Path.of("src/test/resources/chainage/condition/fit-weather.csv")).stream()
                .map(l -> l.split(",", -1))
                .forEach(c -> wet.put(c[1], c[2]));
        int seen = 0;
        for (Row row : Row.read(folder.resolve("expected.csv"))) {
            Ride ride = row.weather ? outcome(row.file).ride(row.session) : null;
            if (ride == null
                    || ride.weather().stream()
                            .noneMatch(w -> w.current() && !w.condition().isEmpty())) {
                continue;
            }
            seen++;
            Set<String> now = ride.weather().stream()
                    .filter(w -> w.current() && !w.condition().isEmpty())
                    .map(w -> String.valueOf(wet.get(w.condition())))
                    .collect(Collectors.toSet());
            Moisture documented = now.contains("yes") || now.contains("likely")
                    ? Moisture.WET
                    : now.contains("damp") ? Moisture.DAMP : Moisture.DRY;
            Condition c = TestLedger.roads(new TestLedger().ledger())
                    .of(List.of(new FiledRide(ride, List.of("/" + row.file))));
            assertEquals(documented, c.moisture(), row.file);
            assertEquals(Evidence.FILE, c.moistureEvidence(), row.file);
        }
        assertTrue(seen > 5, seen + " rides with current weather");
    }

    @TestFactory
    Stream<DynamicTest> activitiesInEachFile() throws IOException {
        Map<String, List<Row>> files = Row.read(folder.resolve("expected.csv")).stream()
                .collect(Collectors.groupingBy(r -> r.file, LinkedHashMap::new, Collectors.toList()));
        return files.entrySet().stream()
                .map(e -> dynamicTest(e.getKey(), () -> {
                    Outcome outcome = outcome(e.getKey());
                    boolean dated = e.getValue().stream().anyMatch(r -> !r.kind.equals("malformed"));
                    if (dated && outcome.decoded() != null) {
                        int found =
                                outcome.activities().size() + outcome.passed().size();
                        assertEquals(e.getValue().size(), found, outcome::facts);
                    }
                }));
    }

    private void check(Row row) {
        Outcome outcome = outcome(row.file);
        Ride ride = outcome.ride(row.session);
        switch (row.kind) {
            case "malformed" -> checkMalformed(row, outcome, ride);
            case "not-a-ride" -> {
                assertTrue(outcome.decoded() != null, outcome::facts);
                assertTrue(ride == null, "is an activity");
                assertTrue(
                        outcome.passed().stream().anyMatch(p -> p.session() == row.session && !p.refused()),
                        outcome::facts);
            }
            default -> {
                if (row.start.isEmpty()) {
                    assertTrue(ride == null, "dated, though the row has no date");
                    return;
                }
                if (ride == null) {
                    throw new AssertionError("no activity: " + outcome.facts());
                }
                Kind kind = row.kind.equals("cycling")
                        ? Kind.CYCLING
                        : row.kind.equals("unspecified") ? Kind.UNSTATED : Kind.OTHER;
                assertEquals(kind, ride.activity().kind());
                checkFacts(row, ride);
            }
        }
    }

    /**
     * What cannot be read whole: a dated FIT session is salvaged with its facts; XML that other decoders refuse, and a FIT
     * file without a dated session, gives no activity but a reason, or what it saves says what was lost.
     */
    private void checkMalformed(Row row, Outcome outcome, @Nullable Ride ride) {
        if (row.format.equals("fit") && !row.start.isEmpty()) {
            if (ride == null) {
                throw new AssertionError("not salvaged: " + outcome.facts());
            }
            assertTrue(ride.salvaged() != null, "read as if it were whole");
            assertTrue(ride.distance().metres() > 0, "salvaged without its metres");
            checkFacts(row, ride);
        } else if (ride != null) {
            assertTrue(!REASONS.containsKey(row.file), "is an activity");
            assertTrue(ride.salvaged() != null, "read as if it were whole");
        } else {
            String reason = outcome.reason(row.session);
            assertTrue(reason.contains(REASONS.getOrDefault(row.file, " ")), () -> "the reason is: " + reason);
        }
    }

    private void checkFacts(Row row, Ride ride) {
        if (!row.sport.isEmpty()) {
            assertEquals(
                    row.sport.toLowerCase(java.util.Locale.ROOT),
                    ride.activity().sport());
        }
        if (row.format.equals("fit")) {
            assertEquals(row.subSport, ride.activity().subSport());
        }
        checkStart(row, ride);
        checkDistance(row, ride);
        if (!Double.isNaN(row.watts) && row.watts > 0) {
            assertEquals(row.watts, ride.effort().watts(), 1, "watts");
        } else if (row.watts == 0) {
            assertTrue(Double.isNaN(ride.effort().watts()), "a mean of 0 W without a meter is no power");
        }
        List<String> seen = outcome(row.file).activities().stream()
                .flatMap(r -> r.devices().stream())
                .map(Ride.Device::name)
                .toList();
        for (String sensor : row.sensors) {
            // In a chained file the row lists the devices of all its parts.
            assertTrue(seen.contains(sensor), () -> "a sensor is missing among " + seen.size());
        }
        assertEquals(row.weather, !ride.weather().isEmpty(), "weather");
        checkGears(row, ride);
    }

    /** Gears are kept as rows of the pedalling table, which needs a cadence: two of the files shift but have none. */
    private static void checkGears(Row row, Ride ride) {
        boolean geared = ride.pedalling().rows().stream().anyMatch(r -> r.ring() > 0 && r.cog() > 0);
        boolean cadence = !ride.pedalling().rows().isEmpty();
        assertEquals(
                row.gears && cadence,
                geared,
                () -> "gears, of rows: " + ride.pedalling().rows().size());
        if (row.gears) {
            System.out.println(
                    "gears " + row.file + ": " + ride.pedalling().rows().size() + " rows");
        }
    }

    private static void checkStart(Row row, Ride ride) {
        List<String> other = OTHER_START.getOrDefault(row.file, List.of());
        if (other.isEmpty()) {
            assertEquals(Instant.parse(row.start).getEpochSecond(), ride.start().getEpochSecond(), "" + ride.start());
        } else {
            assertTrue(
                    !ride.start().isBefore(Instant.parse(other.get(0))),
                    ride.start().toString());
            assertTrue(
                    !ride.start().isAfter(Instant.parse(other.get(1))),
                    ride.start().toString());
        }
    }

    private static void checkDistance(Row row, Ride ride) {
        if (Double.isNaN(row.metres)) {
            return;
        }
        double metres = ride.distance().metres();
        double off = Math.abs(metres - row.metres);
        boolean device = ride.distance().from() == MetresFrom.DEVICE_TOTAL
                || ride.distance().from() == MetresFrom.DEVICE_ODOMETER;
        if (device) {
            assertTrue(off <= 0.001 * row.metres, metres + " m, not " + row.metres);
            return;
        }
        if (ride.distance().from() == MetresFrom.POSITIONS && off > 0.005 * row.metres) {
            double explained = ride.remarks().stream()
                    .filter(r -> r.startsWith("left out"))
                    .mapToDouble(r -> Double.parseDouble(r.replaceAll(".*?([0-9]+) m.*", "$1")))
                    .sum();
            System.out.printf(
                    "positions %s#%d: %.1f m, raw %.1f m, %s%n",
                    row.file, row.session, metres, row.metres, ride.remarks());
            assertTrue(
                    Math.abs(row.metres - explained - metres) <= 0.005 * row.metres + 1,
                    metres + " m, raw " + row.metres + ", left out " + explained);
            return;
        }
        assertEquals(
                row.metres, metres, 0.005 * row.metres + 0.1, ride.distance().toString());
    }

    private record Row(
            String file,
            int session,
            String format,
            String kind,
            String sport,
            String subSport,
            String start,
            double metres,
            double watts,
            boolean gears,
            boolean weather,
            List<String> sensors) {
        static List<Row> read(Path csv) throws IOException {
            List<String> lines = Files.readAllLines(csv);
            List<String> names = cells(lines.get(0));
            return lines.stream().skip(1).map(l -> of(names, cells(l))).toList();
        }

        private static Row of(List<String> names, List<String> cells) {
            java.util.function.UnaryOperator<String> cell = n -> cells.get(names.indexOf(n));
            return new Row(
                    cell.apply("file"),
                    Integer.parseInt(cell.apply("session_index")),
                    cell.apply("format"),
                    cell.apply("kind"),
                    cell.apply("sport"),
                    cell.apply("sub_sport"),
                    cell.apply("start_utc"),
                    number(cell.apply("total_distance_m")),
                    number(cell.apply("avg_power_w")),
                    cell.apply("has_gears").equals("y"),
                    cell.apply("has_weather").equals("y"),
                    cell.apply("sensors").isEmpty()
                            ? List.of()
                            : Arrays.asList(cell.apply("sensors")
                                    // The corpus names one kind of foot sensor by another word than we do.
                                    .replace("running_dynamics:", "running_form:")
                                    .split(";", -1)));
        }

        private static double number(String text) {
            return text.isEmpty() ? Double.NaN : Double.parseDouble(text);
        }

        /** Cells of a CSV line; quotes only around whole cells. */
        private static List<String> cells(String line) {
            List<String> cells = new java.util.ArrayList<>();
            StringBuilder cell = new StringBuilder();
            boolean quoted = false;
            for (int i = 0; i < line.length(); i++) {
                char c = line.charAt(i);
                if (c == '"') {
                    quoted = !quoted;
                } else if (c == ',' && !quoted) {
                    cells.add(cell.toString());
                    cell.setLength(0);
                } else {
                    cell.append(c);
                }
            }
            cells.add(cell.toString());
            return cells;
        }
    }
}
