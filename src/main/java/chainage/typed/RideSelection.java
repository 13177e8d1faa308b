package chainage.typed;

import chainage.answer.Reasons;
import chainage.attribution.AttributedRide;
import chainage.quantity.Ordered;
import chainage.render.Formatter;
import chainage.ride.FiledRide;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Predicate;

/** Finds the rides that the rider means: by id, by date, by range of dates, or the last one. */
public final class RideSelection {
    static final String FORMS = "name rides by id (chainage rides lists them), 2026-03-01, 2026-03, 2026,"
            + " 2026-03-01..2026-03-14, today, yesterday or last";
    /** Rides that can be named by a word. */
    public static final List<String> WORDS = List.of("last", "today", "yesterday");

    private static final int SHORTEST_ID = 4;

    /** What a local day can begin before and end after that of UTC, seconds. */
    private static final long FURTHEST = 18 * 3600;

    private static final long DAY = 24 * 3600;

    private final List<AttributedRide> rides;
    private final List<FiledRide> filed;
    private final Formatter format;
    private final LocalDate today;
    private final Instant now;
    private final List<String> unnamed;
    private final BiConsumer<List<String>, List<String>> told;

    /**
     * Of these rides.
     *
     * @param rides by start; one is only asked for when it may be meant
     * @param filed the same without their verdicts
     * @param unnamed what is meant where none is named; empty where one must be
     * @param told is told which words have named which rides, by their ids
     */
    public RideSelection(
            List<AttributedRide> rides,
            List<FiledRide> filed,
            Formatter format,
            Instant now,
            List<String> unnamed,
            BiConsumer<List<String>, List<String>> told) {
        this.rides = rides;
        this.filed = filed;
        this.format = format;
        this.now = now;
        this.unnamed = unnamed;
        this.told = told;
        this.today = format.localDay(now);
    }

    /** True for what is a year rather than the first four digits of an id; one more of these tells them apart. */
    private static boolean isYear(String word) {
        return word.matches("(19|20)\\d\\d");
    }

    /** True for an id or the beginning of one. */
    public static boolean isId(String word) {
        return word.toLowerCase(Locale.ROOT).matches("[0-9a-f]{" + SHORTEST_ID + ",64}") && !isYear(word);
    }

    /** True for what names rides by its form: an id, a date, a range, or a word for one. */
    public static boolean isShaped(String word) {
        String w = word.toLowerCase(Locale.ROOT);
        return WORDS.contains(w) || isId(w) || isYear(w) || w.matches("\\d{4}(-|\\.\\.).*") || TypedDate.isDate(w);
    }

    /**
     * The rides meant, by start. A twin stands for the ride that is counted in its place.
     *
     * @param named selectors
     * @param bikes only rides on these, unless named by id; empty for all
     * @param all true to let dates and ranges take in activities that do not count
     * @throws CliError when a selector fits nothing, or an id fits several
     */
    public List<AttributedRide> select(List<String> named, Set<String> bikes, boolean all) {
        List<String> typed = named.isEmpty() ? unnamed : named;
        if (typed.isEmpty()) {
            throw CliError.usage("no ride is named", FORMS);
        }
        Map<String, AttributedRide> found = new LinkedHashMap<>();
        for (String t : typed) {
            List<AttributedRide> some = one(t.toLowerCase(Locale.ROOT), bikes, all);
            if (some.isEmpty()) {
                throw CliError.usage(
                        "no ride fits \"" + t + "\"" + (bikes.isEmpty() ? "" : " on " + String.join(" or ", bikes)),
                        rides.isEmpty() ? "import some first: chainage import FOLDER" : FORMS);
            }
            some.forEach(r -> found.put(r.id(), r));
        }
        List<AttributedRide> meant = found.values().stream()
                .sorted(Comparator.comparing(AttributedRide::filed, FiledRide.BY_START))
                .toList();
        told.accept(named, meant.stream().map(AttributedRide::id).toList());
        return meant;
    }

    private List<AttributedRide> one(String t, Set<String> bikes, boolean all) {
        Predicate<AttributedRide> candidate = r -> (all || r.counted()) && r.wasOn(bikes);
        if (t.equals("last")) {
            for (int i = begun(now.getEpochSecond() + 1) - 1; i >= 0; i--) {
                AttributedRide r = rides.get(i);
                if (!r.filed().ride().start().isAfter(now) && candidate.test(r)) {
                    return List.of(r);
                }
            }
            return List.of();
        }
        if (t.equals("today") || t.equals("yesterday") || t.contains("-") || t.contains("..") || isYear(t)) {
            LocalDate[] range = range(t);
            return onDays(range[0], range[1]).stream().filter(candidate).toList();
        }
        return byId(t, all);
    }

    /** Those that began on a local day. */
    public List<AttributedRide> onDay(LocalDate day) {
        return onDays(day, day);
    }

    private List<AttributedRide> onDays(LocalDate first, LocalDate last) {
        int from = begun(first.toEpochDay() * DAY - FURTHEST);
        int to = begun((last.toEpochDay() + 1) * DAY + FURTHEST);
        List<AttributedRide> found = new ArrayList<>();
        for (int i = from; i < to; i++) {
            LocalDate day = format.localDay(filed.get(i).ride().start());
            if (!day.isBefore(first) && !day.isAfter(last)) {
                found.add(rides.get(i));
            }
        }
        return found;
    }

    /** How many began before a second of the epoch. */
    private int begun(long second) {
        return Ordered.before(filed.size(), i -> filed.get(i).ride().start().getEpochSecond() < second);
    }

    private List<AttributedRide> byId(String t, boolean all) {
        if (!isId(t)) {
            throw CliError.usage("\"" + t + "\" names no ride", TypedDate.hint(t, today, FORMS));
        }
        List<AttributedRide> fits = found(r -> r.ride().key().begins(t));
        if (fits.size() > 1) {
            List<String> ids = fits.stream().map(AttributedRide::id).toList();
            throw CliError.usage("\"" + t + "\" fits several rides", "type more of it: " + String.join(", ", ids));
        }
        if (fits.isEmpty() || all) {
            return fits;
        }
        AttributedRide r = fits.get(0);
        String twinOf = r.twinOf();
        AttributedRide of = twinOf == null
                ? r
                : found(f -> f.id().equals(twinOf)).stream().findFirst().orElse(r);
        if (!of.counted()) {
            throw CliError.usage(
                    t + " is not counted as a ride (" + Reasons.of(of.because(), format) + ")",
                    "if it is one: chainage assign " + of.id() + " --a-ride");
        }
        return List.of(of);
    }

    private List<AttributedRide> found(Predicate<FiledRide> meant) {
        List<AttributedRide> found = new ArrayList<>();
        for (int i = 0; i < filed.size(); i++) {
            if (meant.test(filed.get(i))) {
                found.add(rides.get(i));
            }
        }
        return found;
    }

    private LocalDate[] range(String t) {
        try {
            if (t.equals("today")) {
                return new LocalDate[] {today, today};
            }
            if (t.equals("yesterday")) {
                return new LocalDate[] {today.minusDays(1), today.minusDays(1)};
            }
            int dots = t.indexOf("..");
            LocalDate from = day(dots < 0 ? t : t.substring(0, dots), false);
            LocalDate to = day(dots < 0 ? t : t.substring(dots + 2), true);
            if (to.isBefore(from)) {
                throw CliError.usage("the range \"" + t + "\" ends before it starts", "write the earlier date first");
            }
            return new LocalDate[] {from, to};
        } catch (DateTimeParseException e) {
            throw CliError.usage("\"" + t + "\" names no ride", TypedDate.hint(t, today, FORMS));
        }
    }

    /** A day; of a month or a year its first, or its last. */
    private static LocalDate day(String typed, boolean last) {
        String t = TypedDate.padded(typed);
        if (t.length() == 4) {
            return LocalDate.parse(t + (last ? "-12-31" : "-01-01"));
        }
        if (t.length() == 7) {
            YearMonth month = YearMonth.parse(t);
            return last ? month.atEndOfMonth() : month.atDay(1);
        }
        return LocalDate.parse(t);
    }
}
