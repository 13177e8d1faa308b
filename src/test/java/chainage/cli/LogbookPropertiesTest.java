package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestRides;
import chainage.analysis.Snapshot;
import chainage.bookkeeping.LineReader;
import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.host.Terminal;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.logbook.LogbookReading;
import chainage.logbook.LogbookText;
import chainage.logbook.LogbookWriter;
import chainage.logbook.Refusal;
import chainage.ride.FiledRide;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Whatever a logbook went through, what is stated is what the file says as it stands; a failure names its seed. */
class LogbookPropertiesTest {
    private static final int SEQUENCES = Integer.getInteger("logbook.sequences", 100);
    private static final Instant NOW = Instant.parse("2026-11-01T12:00:00Z");
    private static final LocalDate FIRST = LocalDate.of(2026, 3, 1);
    private static final List<String> CHAINS = List.of("Amber", "Ochre", "Ochre");
    private static final List<String> PRODUCTS = List.of("hot-wax", "drip-wax", "\"Kettle Block\"");

    private static final List<FiledRide> RIDES = IntStream.range(0, 12)
            .mapToObj(i -> TestRides.ride(
                            "r" + i, "2026-03-0" + (1 + i % 9) + (i < 9 ? "T08:00:00Z" : "T15:00:00Z"), 30 + i)
                    .filed())
            .toList();

    private static final CommandContext CONTEXT = context();
    private static final LineReader LINES = new LineReader(CONTEXT);

    @Test
    void whatIsStatedIsWhatTheFileSaysAsItStands() throws Refusal {
        int refused = 0;
        int stated = 0;
        for (int seed = 0; seed < SEQUENCES; seed++) {
            Rider rider = new Rider(new Random(seed));
            List<Entry> entries = rider.edited();
            List<Entry> anew = read(List.of(), rider.lines);
            String why = "seed " + seed + "\n" + String.join("\n", rider.lines);
            assertTrue(Ledger.of(entries).means(Ledger.of(anew)), why);
            Logbook edited = remembered(entries);
            assertEquals(texts(remembered(anew)), texts(edited), why);
            assertEquals(
                    Ledger.of(anew).problems().size(),
                    Ledger.of(entries).problems().size(),
                    why);
            writtenItStatesTheSame(entries, why);
            refused += edited.refused().size();
            stated += edited.lines().size();
            // And once more: nothing changes.
            List<Entry> again = read(entries, rider.lines);
            assertEquals(edited.refused(), remembered(again).refused(), why);
            assertEquals(List.of(), again.subList(entries.size(), again.size()), why);
        }
        // The lines were neither all fine nor all nonsense.
        assertTrue(stated > refused && refused > SEQUENCES / 4, stated + " stated, " + refused + " refused");
    }

    /** What is stated, written as a logbook and read into an empty ledger, is the same. */
    private static void writtenItStatesTheSame(List<Entry> entries, String why) throws Refusal {
        Ledger stated = Ledger.of(entries);
        Map<String, Instant> starts = RIDES.stream()
                .collect(Collectors.toMap(FiledRide::id, r -> r.ride().start()));
        String text =
                LogbookWriter.text(new LogbookWriter(stated, CONTEXT.format().clock(), starts, NOW).lines());
        List<Entry> read = read(List.of(), text.lines().skip(1).toList());
        assertEquals(List.of(), remembered(read).refused(), why + "\n\n" + text);
        assertTrue(stated.means(Ledger.of(read)), why + "\n\n" + text);
    }

    private static Logbook remembered(List<Entry> entries) {
        return Logbook.of(entries).getOrDefault("/season.txt", Logbook.fresh("/season.txt"));
    }

    private static List<List<String>> texts(Logbook logbook) {
        return List.of(
                logbook.lines().stream().map(Event.LogbookLine::text).sorted().toList(),
                logbook.refused().stream().map(Event.RefusedLine::text).sorted().toList());
    }

    /** Who edits a logbook at random, and has it read between. */
    private static final class Rider {
        private final Random random;
        private final List<String> lines = new ArrayList<>();

        Rider(Random random) {
            this.random = random;
        }

        List<Entry> edited() throws Refusal {
            lines.addAll(List.of(
                    "2026-02-01 bike add Dunlin",
                    "2026-02-01 chain add Amber --speeds 11",
                    "2026-02-01 chain add Ochre --speeds 11",
                    "2026-02-01 product add \"Kettle Block\" --method hot-wax",
                    "2026-02-02 install Amber Dunlin"));
            List<Entry> entries = List.of();
            int readings = 2 + random.nextInt(4);
            for (int i = 0; i < readings; i++) {
                int edits = 1 + random.nextInt(6);
                for (int e = 0; e < edits; e++) {
                    edit();
                }
                entries = read(entries, lines);
            }
            return entries;
        }

        private void edit() {
            int at = random.nextInt(lines.size() + 1);
            int kind = random.nextInt(10);
            if (kind < 5 || lines.size() < 3) {
                lines.add(at, line());
            } else if (kind < 6) {
                lines.remove(at % lines.size());
            } else if (kind < 7) {
                lines.set(at % lines.size(), line());
            } else if (kind < 9) {
                String line = lines.remove(at % lines.size());
                lines.add(random.nextInt(lines.size() + 1), line);
            } else {
                lines.add(at, lines.get(at % lines.size()));
            }
        }

        private String line() {
            String day = FIRST.plusDays(random.nextInt(9)) + (random.nextInt(3) == 0 ? " 12:00" : "");
            String chain = pick(CHAINS);
            return day + " "
                    + switch (random.nextInt(16)) {
                        case 0, 1 -> "treat " + chain + " " + pick(PRODUCTS);
                        case 2 ->
                            "treat " + chain + " " + pick(PRODUCTS) + " --cleaning " + pick(List.of("deep", "quick"));
                        case 3 -> "treat Amber Ochre hot-wax --minutes 30";
                        case 4 -> "measure " + chain + " 0.0" + (1 + random.nextInt(9)) + "%";
                        case 5 -> "remark " + chain + " noisy";
                        case 6, 7 -> "tag " + pick(List.of("muddy", "wet", "dry", "wet 40% gritty"));
                        case 8 -> "untag";
                        case 9, 10 -> "install " + chain + " Dunlin --swap";
                        case 11 -> "install " + chain + " Dunlin --until " + FIRST.plusDays(random.nextInt(12));
                        case 12 -> "remove " + chain;
                        case 13 -> "factors set treatment.wet.hot-wax " + (2 + random.nextInt(4));
                        case 14 ->
                            "chain "
                                    + pick(List.of(
                                            "set Amber --price \"30 EUR\"",
                                            "add Ochre --speeds 11",
                                            "rename Ochre Umber",
                                            "set Ochre --speeds 12"));
                        default -> "assign " + pick(List.of("--not-a-ride", "--a-ride", "--bike Dunlin"));
                    };
        }

        private <T> T pick(List<T> of) {
            return of.get(random.nextInt(of.size()));
        }
    }

    private static CommandContext context() {
        Terminal terminal = Run.terminal(NOW, new StringWriter(), new StringWriter());
        return new CommandContext(terminal, Path.of("none"), Asked.NOTHING, false, true, Main.RUNNER);
    }

    /** The entries with what a reading of the lines adds. */
    private static List<Entry> read(List<Entry> entries, List<String> lines) throws Refusal {
        Snapshot facts = Snapshot.of(entries, RIDES, Map.of());
        LogbookText text =
                LogbookText.of(("chainage logbook\n" + String.join("\n", lines)).getBytes(StandardCharsets.UTF_8));
        LogbookReading reading = LogbookReading.of(
                new LogbookReading.From(remembered(entries), "/season.txt", text, Set.of(), entries, true),
                CONTEXT.format().clock(),
                LINES.over(facts));
        List<Entry> after = new ArrayList<>(entries);
        long command = entries.size() + 1L;
        reading.events().forEach(e -> after.add(new Entry(after.size() + 1, command, NOW, e)));
        return after;
    }
}
