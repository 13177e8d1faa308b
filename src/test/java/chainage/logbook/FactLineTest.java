package chainage.logbook;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestRides;
import chainage.analysis.Snapshot;
import chainage.bookkeeping.LineReader;
import chainage.cli.Main;
import chainage.cli.Run;
import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.host.Terminal;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Whatever a command can state, a line states alone. */
class FactLineTest {
    private static final Instant NOW = Instant.parse("2026-11-01T12:00:00Z");

    /** What no line of a logbook states: it speaks of entries, comes from another file, or is no more. */
    private static final Set<Class<?>> NO_LINE = Set.of(
            Event.Undone.class,
            Event.Redated.class,
            Event.LogbookRead.class,
            Event.Lost.class,
            Event.AppendSet.class,
            Event.WeatherAdded.class,
            Event.EvidenceAdded.class,
            Event.EvidenceRemoved.class,
            Event.RidesTold.class);

    private static final Set<Class<?>> CORRECTIONS =
            Set.of(Event.Renamed.class, Event.ChainsMerged.class, Event.Untagged.class, Event.RuleDropped.class);

    private static final FiledRide OTHER =
            TestRides.ride("a", "2026-03-02T08:00:00Z", 30).filed();

    private static final String LINES = """
            chainage logbook
            2026-03-01 bike add Dunlin --rings 34,50 --cogs 11-28/11 --wheel 2.105m --jockeys 11,13 --cassette-price 52EUR
            2026-03-01 bike add "Natterjack's" --no-chain
            2026-03-01 bike add Otter --follows Dunlin --chains-from 2026-03-02 --rings-price "64.00 EUR"
            2026-03-01 bike set Dunlin --default
            2026-03-01 bike set Otter --wheel 28-622
            2026-03-01 chain add Amber --speeds 11 --links 112 --limit 0.6% --price 34.90EUR
            2026-03-01 chain add Ochre --used
            2026-03-01 chain add Umber --stripped
            2026-03-01 chain set Ochre --new --speeds 12
            2026-03-01 chain set Umber --limit 0.75%
            2026-03-01 product add "Kettle \\"Block\\"" --method hot-wax --price 20EUR --amount 400ml --per-treatment 5ml --minutes 30
            2026-03-01 product set Kettle --price 21EUR
            2026-03-01 product set Kettle --method drip-wax
            2026-03-02 product buy Kettle --packages 2
            2026-03-01 product same Kettle "kettle block, old"
            2026-03-01 install Amber Dunlin
            2026-03-04 12:00 install Ochre Dunlin --swap
            2026-03-05 treat Amber Ochre Kettle --cleaning deep --amount 4ml --minutes 12.5
            2026-03-06 18:30:15 treat Ochre hot-wax --heard noisy
            2026-03-07 remark Ochre noisy
            2026-03-07 remark Ochre note "# -- not that much"
            2026-03-07 remark -- Ochre note "-- quiet"
            2026-03-08 measure Ochre 0.12% 0.1% --tool calliper
            2026-03-08 measure Ochre --gauge 0.5 stays-out
            2026-03-08 tag wet 40% gritty
            2026-03-08 tag muddy
            2026-03-08 tag 2026-03-08 --withdraw
            2026-03-09 tag dry
            2026-03-09 tag 2026-03-09 --withdraw --all
            2026-03-03 assign --bike Natterjack
            2026-03-03 assign --not-a-ride
            2026-03-03 assign --a-ride
            2026-03-03 assign --not-a-duplicate
            2026-03-03 assign --duplicate-of OTHER
            2026-03-03 assign --path "runs/*" --not-a-ride
            2026-03-03 assign --path commute --bike Dunlin
            2026-03-03 assign --sensor bike_power:31000417 --bike Dunlin
            2026-03-03 assign --sub-sport gravel --a-ride
            2026-03-03 assign --path commute --withdraw
            2026-03-03 assign --cyclist 10.5..60
            2026-03-03 factors set treatment.wet.hot-wax 5
            2026-03-03 factors set life.hot-wax 280 --low 200 --high 380
            2026-03-03 factors reset --all
            2026-03-03 settings set ignore trash *.bak
            2026-03-03 settings set due-risk 0.2
            2026-03-03 settings reset --all
            2026-03-03 words set "peat track" gritty
            2026-03-03 words reset "Peat Track"
            2026-03-03 meter set bike_power:4001 --before-chain
            2026-03-03 meter set bike_power:4002 --behind-chain --reads-high -0.4%
            2026-03-03 meter set bike_power:4003 --not-recorded
            2026-03-03 meter set bike_power:4001 --withdraw
            2026-03-10 remove Ochre
            2026-03-10 bike rename Dunlin Heron
            2026-03-10 chain rename Umber Slate
            2026-03-10 product rename Kettle "Kettle Cake"
            2026-03-10 chain merge Slate Ochre
            2026-03-11 factors set treatment.wet.grease 4
            2026-03-11 settings set currency EUR
            2026-03-11 words set "peat track" gritty
            """;

    @Test
    void everyFactHasALineThatStatesItAlone() throws Refusal {
        Terminal terminal = Run.terminal(NOW, new StringWriter(), new StringWriter());
        CommandContext context = new CommandContext(terminal, Path.of("none"), Asked.NOTHING, false, true, Main.RUNNER);
        Snapshot rides = Snapshot.of(
                List.of(),
                List.of(
                        OTHER,
                        TestRides.ride("b", "2026-03-03T08:00:00Z", 31).filed(),
                        TestRides.ride("c", "2026-03-08T08:00:00Z", 32).filed(),
                        TestRides.ride("d", "2026-03-08T16:00:00Z", 33).filed(),
                        TestRides.ride("e", "2026-03-09T08:00:00Z", 34).filed()),
                Map.of());
        LineReader reader = new LineReader(context);
        reader.over(rides);
        List<Entry> entries = new ArrayList<>();
        Set<Class<?>> seen = new HashSet<>();
        LogbookText text = LogbookText.of(LINES.replace("OTHER", OTHER.id()));
        assertEquals(List.of(), text.refused());
        for (Line line : text.lines()) {
            for (Event fact : reader.of(line, Ledger.of(entries))) {
                Line alone = FactLine.of(fact, context.format().clock(), line)
                        .orElseThrow(() -> new AssertionError(line.text() + ": " + fact));
                List<Line> read =
                        LogbookText.of("chainage logbook\n" + alone.text()).lines();
                assertEquals(
                        List.of(fact),
                        reader.of(read.get(0), Ledger.of(entries)).stream()
                                .limit(1)
                                .toList(),
                        line.text() + " → " + alone.text());
                entries.add(new Entry(entries.size() + 1, entries.size() + 1, NOW, fact));
                seen.add(fact.getClass());
            }
        }
        Arrays.stream(Event.class.getPermittedSubclasses())
                .filter(k -> !NO_LINE.contains(k) && !seen.contains(k) && Event.class.isAssignableFrom(k))
                .forEach(k -> assertTrue(false, "no line tried of " + k.getSimpleName()));
        isWrittenWhole(entries, context, rides, seen);
    }

    /** A logbook made of all that leaves no kind out; what is taken back or corrected is not there to be written. */
    private static void isWrittenWhole(
            List<Entry> entries, CommandContext context, Snapshot rides, Set<Class<?>> kinds) {
        Map<String, Instant> starts = new HashMap<>();
        rides.rides().forEach(r -> starts.put(r.id(), r.ride().start()));
        Set<Long> written = new HashSet<>();
        new LogbookWriter(Ledger.of(entries), context.format().clock(), starts, NOW)
                .lines()
                .forEach(l -> written.addAll(l.facts()));
        Set<Class<?>> found = new HashSet<>(CORRECTIONS);
        entries.stream()
                .filter(e -> written.contains(e.number()))
                .forEach(e -> found.add(e.event().getClass()));
        Set<Class<?>> missing = new HashSet<>(kinds);
        missing.removeAll(found);
        assertEquals(Set.of(), missing, "not written");
    }
}
