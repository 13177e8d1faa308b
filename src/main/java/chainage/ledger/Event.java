package chainage.ledger;

import chainage.quantity.Money;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * A fact the rider states. Facts are never changed or deleted; a correction is a new one.
 *
 * <p>Names (of bikes, chains, products) are the rider's own, unique within their kind, case kept, compared without it.
 */
public sealed interface Event {
    /** True for what only notes how a file was met: it states nothing, and is not taken back. */
    default boolean isNote() {
        return false;
    }

    /**
     * A bike: new, or described anew.
     *
     * @param rings chainring teeth, ascending; empty when not entered
     * @param cogs cog teeth, ascending; empty when not entered
     * @param circumferenceMetres wheel circumference; null when not entered
     * @param jockeys teeth of the two jockey wheels, upper first; empty when not entered
     * @param cassettePrice what a new set of cogs costs; null when not entered
     * @param ringsPrice what new chainrings cost, all together; null when not entered
     * @param chainless true where it has no chain, but a belt or a shaft
     * @param chainsFrom rides before that count for no chain, and are not asked about; null for none
     * @param follows the bike whose rides it shares, such as a tandem of which this is the timing chain; null for none
     */
    record BikeDescribed(
            String bike,
            List<Integer> rings,
            List<Integer> cogs,
            @Nullable Double circumferenceMetres,
            List<Integer> jockeys,
            @Nullable Money cassettePrice,
            @Nullable Money ringsPrice,
            boolean chainless,
            @Nullable Instant chainsFrom,
            @Nullable String follows)
            implements Event {
        public BikeDescribed {
            rings = List.copyOf(rings);
            cogs = List.copyOf(cogs);
            jockeys = List.copyOf(jockeys);
        }

        /** A bike with a chain, and rides of its own. */
        public BikeDescribed(
                String bike,
                List<Integer> rings,
                List<Integer> cogs,
                @Nullable Double circumferenceMetres,
                List<Integer> jockeys,
                @Nullable Money cassettePrice,
                @Nullable Money ringsPrice) {
            this(bike, rings, cogs, circumferenceMetres, jockeys, cassettePrice, ringsPrice, false, null, null);
        }

        /** True where a ride then is to count for a chain. */
        public boolean wantsChain(Instant ride) {
            return !chainless && (chainsFrom == null || !ride.isBefore(chainsFrom));
        }

        /** A bike without prices. */
        public BikeDescribed(
                String bike,
                List<Integer> rings,
                List<Integer> cogs,
                @Nullable Double circumferenceMetres,
                List<Integer> jockeys) {
            this(bike, rings, cogs, circumferenceMetres, jockeys, null, null);
        }

        /** A bike whose jockey wheels are not entered either. */
        public BikeDescribed(
                String bike, List<Integer> rings, List<Integer> cogs, @Nullable Double circumferenceMetres) {
            this(bike, rings, cogs, circumferenceMetres, List.of());
        }
    }

    /**
     * A chain: new, or described anew.
     *
     * @param pitches number of links, 0 when not entered
     * @param speeds number of cogs it is made for, 1 for single-speed and hub gears
     * @param limitPercent elongation at which to replace it; null for the usual limit of its speeds
     * @param price what it cost; null when not entered
     * @param used true for one that had run before its first ride here
     * @param stripped true for one whose factory preservative was washed off before it
     */
    record ChainDescribed(
            String chain,
            int pitches,
            int speeds,
            @Nullable Double limitPercent,
            @Nullable Money price,
            boolean used,
            boolean stripped)
            implements Event {
        /** A new chain, with what the factory put on it. */
        public ChainDescribed(
                String chain, int pitches, int speeds, @Nullable Double limitPercent, @Nullable Money price) {
            this(chain, pitches, speeds, limitPercent, price, false, false);
        }

        /** What is on it before the first treatment that is noted; of a used one nobody knows, so nothing is counted on. */
        public Method first() {
            return stripped || used ? Method.NONE : Method.FACTORY;
        }
    }

    /**
     * A product: new, or described anew.
     *
     * @param price of one package; null when not entered
     * @param packageMillilitres content of one package; null when not entered
     * @param treatmentMillilitres what one treatment takes where nothing else is noted; null when not entered
     * @param treatmentMinutes how long one takes where nothing else is noted; null when not entered
     */
    record ProductDescribed(
            String product,
            Method method,
            @Nullable Money price,
            @Nullable Double packageMillilitres,
            @Nullable Double treatmentMillilitres,
            @Nullable Double treatmentMinutes)
            implements Event {
        /** A product whose treatments are not described. */
        public ProductDescribed(
                String product, Method method, @Nullable Money price, @Nullable Double packageMillilitres) {
            this(product, method, price, packageMillilitres, null, null);
        }

        /** The names of some products, by method. */
        public static SortedMap<Method, Set<String>> names(Iterable<ProductDescribed> products) {
            SortedMap<Method, Set<String>> names = new TreeMap<>();
            products.forEach(
                    p -> names.computeIfAbsent(p.method(), m -> new TreeSet<>()).add(p.product()));
            return names;
        }
    }

    /**
     * Something described anew: only what was said, so that taking it back takes back no more than that.
     *
     * @param name of the bike, chain or product
     * @param said values by the names of their fields, those under which its description is kept
     */
    record Changed(Named what, String name, Map<String, Object> said) implements Event {
        public Changed {
            said = Map.copyOf(said);
        }
    }

    /**
     * Packages of a product bought.
     *
     * @param packages how many, 1 or more
     */
    record Bought(String product, Instant at, int packages) implements Event {}

    /** Chain on bike from an instant on. */
    record Installed(String chain, String bike, Instant at) implements Event {}

    /** Chain off its bike from an instant on. */
    record Removed(String chain, Instant at) implements Event {}

    /**
     * A product applied to a chain.
     *
     * @param millilitres used; null when not noted
     * @param minutes spent; null when not noted
     * @param heard what the chain was like until then; null when not said
     */
    record Treated(
            String chain,
            String product,
            Instant at,
            Cleaning cleaning,
            @Nullable Double millilitres,
            @Nullable Double minutes,
            @Nullable Heard heard)
            implements Event {
        /** A treatment of which is not said what was heard before. */
        public Treated(
                String chain,
                String product,
                Instant at,
                Cleaning cleaning,
                @Nullable Double millilitres,
                @Nullable Double minutes) {
            this(chain, product, at, cleaning, millilitres, minutes, null);
        }
    }

    /** An elongation measurement. */
    record Measured(String chain, Instant at, Reading reading) implements Event {}

    /** Something heard or seen on a chain. */
    record Remarked(String chain, Instant at, Remark remark, String words) implements Event {}

    /**
     * The rider's flag on rides. Only what it names is set: a later flag on moisture leaves an earlier one on grit.
     *
     * @param rides their ids, at least one
     * @param moisture null to leave as it is
     * @param share of the ride's distance the moisture holds for, 0 to 1; the rest was dry
     * @param grit null to leave as it is
     */
    record Tagged(
            List<String> rides,
            @Nullable Moisture moisture,
            double share,
            @Nullable Grit grit) implements Event {
        public Tagged {
            rides = List.copyOf(rides);
        }
    }

    /** All flags of these rides withdrawn. */
    record Untagged(List<String> rides) implements Event {
        public Untagged {
            rides = List.copyOf(rides);
        }
    }

    /**
     * The rider's own word on which bike rides were on.
     *
     * @param bike null to withdraw an earlier word
     */
    record RidesAssigned(List<String> rides, @Nullable String bike) implements Event {
        public RidesAssigned {
            rides = List.copyOf(rides);
        }
    }

    /**
     * The rider's own word on whether activities are bike rides.
     *
     * @param counts null to withdraw an earlier word
     */
    record RidesCounted(List<String> rides, @Nullable Boolean counts) implements Event {
        public RidesCounted {
            rides = List.copyOf(rides);
        }
    }

    /**
     * The rider's own word on twins.
     *
     * @param ride id of the ride in question
     * @param of id of the ride it repeats; its own id to say that it repeats none; null to withdraw an earlier word
     */
    record TwinStated(String ride, @Nullable String of) implements Event {}

    /** A matching rule, in place of any earlier one with the same condition. */
    record RuleSet(Rule rule) implements Event {}

    /** The rule with this condition withdrawn. */
    record RuleDropped(Rule.When when) implements Event {}

    /**
     * The median moving speeds between which an activity of unstated sport counts as a ride, km/h.
     */
    record SpeedBandSet(double lowKmh, double highKmh) implements Event {
        /** Where the rider says nothing: the median moving speeds of a cyclist; our guess. */
        public static final SpeedBandSet USUAL = new SpeedBandSet(8, 55);
    }

    /**
     * Where a power meter sits.
     *
     * @param type of the device, as files name it
     * @param serial of it
     * @param place null to withdraw an earlier word
     * @param readsHighPercent how much more than the truth it reads by a calibration; null without one
     */
    record MeterPlaced(
            String type,
            String serial,
            @Nullable MeterPlace place,
            @Nullable Double readsHighPercent) implements Event {
        /** For example {@code bike_power:31000417}. */
        public String meter() {
            return type + ":" + serial;
        }
    }

    /**
     * The rider's own value for a row of the factor table.
     *
     * @param key of the row, such as {@code treatment.wet.hot-wax}
     * @param value in the row's unit; null to go back to the table's own
     * @param low of an 80 % interval; null to keep the table's, in proportion
     * @param high of it; null exactly when low is
     */
    record FactorSet(
            String key,
            @Nullable Double value,
            @Nullable Double low,
            @Nullable Double high) implements Event {}

    /**
     * How the program is to meet the rider, whatever the question.
     *
     * @param setting its name, such as {@code units}
     * @param values what it is; empty to go back to the default
     */
    record SettingSet(String setting, List<String> values) implements Event {
        public SettingSet {
            values = List.copyOf(values);
        }
    }

    /**
     * Weather records brought in. The observations themselves lie beside the entries and are in force as long as it is.
     *
     * @param source name of the file they came from, without its folders
     * @param observations how many were new
     * @param stations names of the stations, sorted; an unnamed one is left out
     * @param from the earliest observation
     * @param to the latest
     * @param place where the rider said that the station is, as latitude and longitude; null where nothing was said
     * @param columns names of a table's columns as the rider gave them, such as {@code time=when}; null for none
     */
    record WeatherAdded(
            String source,
            long observations,
            List<String> stations,
            Instant from,
            Instant to,
            @Nullable String place,
            @Nullable List<String> columns)
            implements Event {
        public WeatherAdded {
            stations = List.copyOf(stations);
            columns = columns == null ? null : List.copyOf(columns);
        }
    }

    /**
     * The rider's own word for a road, or another meaning for one of the list.
     *
     * @param word a word or a few, as in a title
     * @param meaning what it says, {@code none} to silence it; null to go back to the list
     */
    record RoadWordSet(String word, @Nullable String meaning) implements Event {}

    /**
     * What other riders' chains have shown, brought in from files.
     *
     * @param as the rider's word for where it came from
     * @param riders one text each, lines of JSON as in the files
     */
    record EvidenceAdded(String as, List<String> riders) implements Event {
        public EvidenceAdded {
            riders = List.copyOf(riders);
        }
    }

    /**
     * What was brought in under a word is left out again.
     *
     * @param as the word
     */
    record EvidenceRemoved(String as) implements Event {}

    /**
     * Another rider's word for a product of this one's.
     *
     * @param product this rider's
     * @param word the other's, of any case and spacing
     */
    record ProductsSame(String product, String word) implements Event {}

    /** What the rider gives names to. */
    enum Named {
        BIKE,
        CHAIN,
        PRODUCT;

        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Another name for what was called {@code from} up to here, in all facts stated before. */
    record Renamed(Named what, String from, String to) implements Event {}

    /**
     * Two chains that are one: all that was stated of the first holds for the second, save the first's description.
     *
     * @param chain the name that goes
     * @param into the name that stays
     */
    record ChainsMerged(String chain, String into) implements Event {}

    /**
     * What a table that came beside ride files says of rides, from here on: what an earlier reading of it said of others
     * stands.
     *
     * @param folder where the files are, absolute
     * @param table where it is, absolute
     * @param columns which of its columns holds what, such as {@code title=Name}
     * @param rows of which it says something else than before
     */
    record RidesTold(String folder, String table, List<String> columns, List<Told> rows) implements Event {
        public RidesTold {
            columns = List.copyOf(columns);
            rows = List.copyOf(rows);
        }

        /** That the table was not there when it was looked for, and that this was told. */
        public static RidesTold missing(String folder, String table) {
            return new RidesTold(folder, table, List.of(), List.of());
        }

        /** True where the table was not there; one that is read has columns. */
        public boolean isMissing() {
            return columns.isEmpty();
        }

        @Override
        public boolean isNote() {
            return rows.isEmpty();
        }
    }

    /**
     * What a table says of a ride; null for nothing.
     *
     * @param bike one of the rider's
     * @param written as the table calls the bike, be it one of the rider's or not
     */
    record Told(
            String ride,
            @Nullable String title,
            @Nullable String notes,
            @Nullable String bike,
            @Nullable String written) {
        /** Whether it says anything that is gone by. */
        boolean tells() {
            return title != null || notes != null || bike != null;
        }
    }

    /**
     * Another time for a dated fact.
     *
     * @param target number of its entry
     * @param to when it happened after all
     */
    record Redated(long target, Instant to) implements Event {}

    /**
     * What stands in the place of a fact that the disk has damaged, so that the numbers of all others go on meaning what
     * they did. It states nothing.
     *
     * @param was the damaged fact as far as it could be read; empty where nothing of it was left
     */
    record Lost(String was) implements Event {
        @Override
        public boolean isNote() {
            return true;
        }
    }

    /** An entry taken back; taking back an {@code Undone} brings its target into force again. */
    record Undone(long target) implements Event {}

    /**
     * What a reading of a logbook leaves to be remembered: which of its lines state which facts. It states nothing itself,
     * and is not taken back with the facts of the same command: a line whose facts the rider took back stays known.
     *
     * @param file where the logbook is, absolute
     * @param was where it was when it was read last; null for the same place
     * @param digest of its lines in their order; the same says that nothing need be looked at
     * @param gone lines that are no longer remembered, each as often as it is one less
     * @param lines that are remembered from here on
     * @param refused all lines that stand in the file and state nothing, by their numbers
     * @param awaited lines that are remembered since the program writes them, and were not seen in the file yet: from
     *     there an editor may have taken them without knowing
     */
    record LogbookRead(
            String file,
            @Nullable String was,
            String digest,
            List<String> gone,
            List<LogbookLine> lines,
            List<RefusedLine> refused,
            List<String> awaited)
            implements Event {
        public LogbookRead {
            gone = List.copyOf(gone);
            lines = List.copyOf(lines);
            refused = List.copyOf(refused);
            awaited = List.copyOf(awaited);
        }

        @Override
        public boolean isNote() {
            return true;
        }
    }

    /**
     * Which logbook is written along: what is stated at the terminal from here on stands in a line of it as well.
     *
     * @param file of a logbook, absolute; null for none
     */
    record AppendSet(@Nullable String file) implements Event {}

    /**
     * A line of a logbook.
     *
     * @param number of the line in the file when it was read, from 1
     * @param text in the one way in which it is always written
     * @param facts numbers of the entries that it states
     * @param instead numbers of the entries that lines stated in whose place it stands; they may be in force again
     */
    record LogbookLine(int number, String text, List<Long> facts, List<Long> instead) {
        public LogbookLine {
            facts = List.copyOf(facts);
            instead = List.copyOf(instead);
        }
    }

    /** A line of a logbook that states nothing, and why, with what to write instead. */
    record RefusedLine(int number, String text, String reason) {}
}
