package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Printed reports of national keys and of decoders' own documentation; the sources stand in the resource. */
class MetarSamplesTest {
    static Stream<NamedCsvRecord> samples() {
        try (InputStream in = Objects.requireNonNull(MetarSamplesTest.class.getResourceAsStream("metar-samples.csv"))) {
            String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            String table = String.join(
                    "\n", text.lines().filter(l -> !l.startsWith("#")).toList());
            return CsvReader.builder().ofNamedCsvRecord(table).stream().toList().stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Observation only(String raw) {
        List<Observation> all = new ArrayList<>();
        List<BadLine> bad = new ArrayList<>();
        Metar.read(List.of(raw).iterator(), YearMonth.of(2026, 3), Place.UNKNOWN, all::add, bad::add);
        assertEquals(List.of(), bad);
        assertEquals(1, all.size());
        return all.get(0);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("samples")
    void everySample(NamedCsvRecord sample) {
        String raw = sample.getField("raw");
        Observation o = only(raw);
        assertEquals(raw.split(" ", -1)[1], o.station());
        assertEquals(
                "yes".equals(sample.getField("precip_now")),
                o.seen().now().phenomenon().falls());
        String intensity = sample.getField("intensity");
        assertEquals(
                intensity.isEmpty() ? "none" : intensity,
                o.seen().now().intensity().words());
        assertEquals(phenomenon(sample.getField("phenomenon")), o.seen().now().phenomenon());
        String mm = sample.getField("hourly_mm");
        assertEquals(!mm.isEmpty(), o.measured());
        if (!mm.isEmpty()) {
            assertEquals(Double.parseDouble(mm), o.millimetresPerHour(), 1e-9);
            assertEquals(3600, o.seconds());
        }
        assertEquals("trace".equals(sample.getField("hourly_in")), o.seen().trace());
    }

    private static Phenomenon phenomenon(String words) {
        if (words.startsWith("none")) {
            return Phenomenon.NONE;
        }
        return words.contains("drizzle")
                ? Phenomenon.DRIZZLE
                : words.startsWith("snow") ? Phenomenon.SNOW : Phenomenon.RAIN;
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("samples")
    void thePresentWeatherGroupsThemselves(NamedCsvRecord sample) {
        String raw = sample.getField("raw");
        MetarReport report = MetarReport.of(List.of(raw.split(" ", -1)).subList(3, raw.split(" ", -1).length));
        assertFalse(report.nil());
        assertEquals(
                sample.getField("present_weather"),
                Objects.requireNonNull(report.weather()).words());
        assertTrue(report.air().celsius() > -40 && report.air().celsius() < 40);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("samples")
    void aReportCutAnywhereIsReadOrRefusedAndNothingElse(NamedCsvRecord sample) {
        String raw = sample.getField("raw");
        for (int n = 0; n <= raw.length(); n++) {
            List<Observation> all = new ArrayList<>();
            List<BadLine> bad = new ArrayList<>();
            Metar.read(
                    List.of(raw.substring(0, n)).iterator(), YearMonth.of(2026, 3), Place.UNKNOWN, all::add, bad::add);
            assertTrue(all.size() + bad.size() <= 1);
        }
    }
}
