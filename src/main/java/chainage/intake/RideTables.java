package chainage.intake;

import chainage.analysis.Change;
import chainage.analysis.Snapshot;
import chainage.answer.ChangeWords;
import chainage.answer.imports.TableRead;
import chainage.command.CommandContext;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.ToldTable;
import chainage.logbook.Refusal;
import chainage.ride.FiledRide;
import chainage.store.LedgerFile;
import chainage.table.RideTable;
import chainage.table.RideTable.Holds;
import chainage.table.Table;
import chainage.typed.Names;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Tables that tell of rides, which come beside their files: the one that an import names, and those of earlier ones. */
public final class RideTables {
    /** None is named; those of earlier imports are read. */
    static final RideTables REMEMBERED = new RideTables(null, Map.of());

    private final @Nullable Path table;
    private final Map<Holds, String> said;

    /**
     * For one import.
     *
     * @param table the one that is named; null for none
     * @param said what its columns hold, as the rider says; empty where nothing is said
     */
    public RideTables(@Nullable Path table, Map<Holds, String> said) {
        this.table = table;
        this.said = said;
    }

    /** One to be read: as it is remembered, and whether the rider names it now. */
    private record Wanted(ToldTable known, Map<Holds, String> columns, boolean named) {}

    /** What a reading found. */
    private record Reading(RideTable table, RideTable.Changes changes, List<Event> events) {}

    /**
     * Reads them once the rides are in, each in one transaction.
     *
     * @param facts all that is kept by now
     */
    List<TableRead> run(CommandContext context, LedgerFile ledger, List<Entry> facts, List<Path> roots)
            throws IOException {
        List<TableRead> told = new ArrayList<>();
        List<Event> missing = new ArrayList<>();
        for (Wanted w : wanted(facts, roots)) {
            try {
                byte[] bytes = bytes(w);
                if (bytes == null) {
                    if (!w.known().missed()) {
                        told.add(TableRead.gone(w.known().table()));
                        missing.add(w.known().missing());
                    }
                    continue;
                }
                LedgerFile.Written<Reading> written = ledger.<Reading, Refusal>update(
                        context.terminal().clock().instant(), snapshot -> {
                            Reading reading = reading(w, bytes, snapshot);
                            return new LedgerFile.Decision<>(reading.events(), reading);
                        });
                context.keep(written.entries());
                List<Entry> after = new ArrayList<>(written.before().entries());
                after.addAll(written.entries());
                told.add(tell(context, w, written.answer(), written.entries(), written.before(), after));
            } catch (Refusal e) {
                told.add(TableRead.refused(w.known().table(), e.reason()));
            }
        }
        if (!missing.isEmpty()) {
            ledger.append(missing, context.terminal().clock().instant());
        }
        return told;
    }

    /**
     * Reads them without keeping anything.
     *
     * @param told takes what is to be told
     * @return all facts with what they would tell
     */
    Snapshot rehearse(CommandContext context, Snapshot from, List<Path> roots, List<TableRead> told)
            throws IOException {
        Snapshot now = from;
        for (Wanted w : wanted(from.entries(), roots)) {
            try {
                byte[] bytes = bytes(w);
                if (bytes == null) {
                    if (!w.known().missed()) {
                        told.add(TableRead.gone(w.known().table()));
                    }
                    continue;
                }
                Reading reading = reading(w, bytes, now);
                List<Entry> after = new ArrayList<>(now.entries());
                long number = after.isEmpty() ? 0 : after.get(after.size() - 1).number();
                for (Event e : reading.events()) {
                    after.add(new Entry(number + 1, number + 1, context.now(), e));
                }
                told.add(tell(context, w, reading, List.of(), now, after));
                now = now.withEntries(after);
            } catch (Refusal e) {
                told.add(TableRead.refused(w.known().table(), e.reason()));
            }
        }
        return now;
    }

    private List<Wanted> wanted(List<Entry> facts, List<Path> roots) {
        List<Wanted> wanted = new ArrayList<>();
        Path named = table;
        String place = named == null ? "" : absolute(named);
        for (ToldTable known : ToldTable.of(facts)) {
            boolean now = known.table().equals(place) && known.folder().equals(absolute(roots.get(0)));
            if (!now && known.followed() && roots.stream().anyMatch(r -> isIn(known.folder(), absolute(r)))) {
                wanted.add(new Wanted(known, columns(known.columns()), false));
            } else if (now) {
                wanted.add(new Wanted(known, said.isEmpty() ? columns(known.columns()) : said, true));
                named = null;
            }
        }
        if (named != null) {
            wanted.add(new Wanted(ToldTable.fresh(absolute(roots.get(0)), place), said, true));
        }
        return wanted;
    }

    private static Map<Holds, String> columns(List<String> kept) {
        Map<Holds, String> columns = new EnumMap<>(Holds.class);
        for (Holds h : Holds.values()) {
            kept.stream()
                    .filter(k -> k.startsWith(h.word() + "="))
                    .forEach(k -> columns.put(h, k.substring(h.word().length() + 1)));
        }
        return columns;
    }

    private static String absolute(Path path) {
        return path.toAbsolutePath().normalize().toString();
    }

    private static boolean isIn(String path, String folder) {
        return path.equals(folder) || path.startsWith(folder.endsWith("/") ? folder : folder + "/");
    }

    /** The bytes of it; null where a remembered one is gone. */
    private static byte @Nullable [] bytes(Wanted w) throws IOException {
        Path path = Path.of(w.known().table());
        return !w.named() && !Files.exists(path) ? null : Inputs.atMost(Table.LARGEST + 1, path);
    }

    private static Reading reading(Wanted w, byte[] bytes, Snapshot facts) throws Refusal {
        Map<String, List<String>> rides = new HashMap<>();
        for (FiledRide r : facts.rides()) {
            for (String path : r.paths()) {
                if (isIn(path, w.known().folder()) || path.startsWith(w.known().folder() + "!/")) {
                    String within = path.substring(w.known().folder().length());
                    rides.computeIfAbsent(within, p -> new ArrayList<>()).add(r.id());
                }
            }
        }
        RideTable.Files files = new RideTable.Files(rides);
        Ledger ledger = Ledger.of(facts.entries());
        Set<String> bikes = ledger.bikes().keySet();
        RideTable read = RideTable.of(
                Table.of(bytes, files::names),
                w.columns(),
                files,
                name -> Names.taken(name, bikes).orElse(ledger.toldBike(name).orElse(null)));
        // What was taken back stays out until it changes, unless the rider names the table anew.
        RideTable.Changes changes =
                read.changed(w.named() ? w.known().inForce() : w.known().read(), w.named());
        boolean anew = w.known().missed()
                || !changes.rows().isEmpty()
                || !read.columns().equals(w.known().columns());
        return new Reading(
                read,
                changes,
                anew
                        ? List.of(new Event.RidesTold(
                                w.known().folder(), w.known().table(), read.columns(), changes.rows()))
                        : List.of());
    }

    private static TableRead tell(
            CommandContext context,
            Wanted w,
            Reading reading,
            List<Entry> written,
            Snapshot before,
            List<Entry> after) {
        List<String> changes = reading.changes().rows().isEmpty()
                ? List.of()
                : ChangeWords.of(
                        Change.between(context.analysis(before), context.analysis(before.withEntries(after))),
                        context.format());
        return TableRead.of(w.known().table(), reading.table(), reading.changes(), written, changes);
    }
}
