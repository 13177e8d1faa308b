package chainage.cli;

import chainage.answer.Reasons;
import chainage.attribution.AttributedRide;
import chainage.render.Formatter;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.BiConsumer;

/** Finds the rides that the rider means: by id, by date, by range of dates, or the last one. */
final class RideSelection {
    static final String FORMS = "name rides by id (chainage rides lists them), 2026-03-01, 2026-03, 2026,"
            + " 2026-03-01..2026-03-14, today, yesterday or last";
    /** Rides that can be named by a word. */
    static final List<String> WORDS = List.of("last", "today", "yesterday");

    private static final int SHORTEST_ID = 4;

    private final List<AttributedRide> rides;
    private final Formatter format;
    private final LocalDate today;
    private final Instant now;
    private final List<String> unnamed;
    private final BiConsumer<List<String>, List<String>> told;

    /**
     * Of these rides.
     *
     * @param unnamed what is meant where none is named; empty where one must be
     * @param told is told which words have named which rides, by their ids
     */
    RideSelection(
            List<AttributedRide> rides,
            Formatter format,
            Instant now,
            List<String> unnamed,
            BiConsumer<List<String>, List<String>> told) {
        this.rides = rides;
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
    static boolean isId(String word) {
        return word.toLowerCase(Locale.ROOT).matches("[0-9a-f]{" + SHORTEST_ID + ",64}") && !isYear(word);
    }

    /** True for what names rides by its form: an id, a date, a range, or a word for one. */
    static boolean isShaped(String word) {
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
    List<AttributedRide> select(List<String> named, Set<String> bikes, boolean all) {
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
        List<AttributedRide> meant =
                rides.stream().filter(r -> found.containsKey(r.id())).toList();
        told.accept(named, meant.stream().map(AttributedRide::id).toList());
        return meant;
    }

    private List<AttributedRide> one(String t, Set<String> bikes, boolean all) {
        List<AttributedRide> candidates = rides.stream()
                .filter(r -> all || r.counted())
                .filter(r -> r.wasOn(bikes))
                .toList();
        if (t.equals("last")) {
            List<AttributedRide> begun = candidates.stream()
                    .filter(r -> !r.filed().ride().start().isAfter(now))
                    .toList();
            return begun.isEmpty() ? List.of() : begun.subList(begun.size() - 1, begun.size());
        }
        if (t.equals("today") || t.equals("yesterday") || t.contains("-") || t.contains("..") || isYear(t)) {
            LocalDate[] range = range(t);
            return candidates.stream()
                    .filter(r -> {
                        LocalDate day = format.localDay(r.filed().ride().start());
                        return !day.isBefore(range[0]) && !day.isAfter(range[1]);
                    })
                    .toList();
        }
        return byId(t, all);
    }

    private List<AttributedRide> byId(String t, boolean all) {
        if (!isId(t)) {
            throw CliError.usage("\"" + t + "\" names no ride", TypedDate.hint(t, today, FORMS));
        }
        List<AttributedRide> fits =
                rides.stream().filter(r -> r.filed().ride().key().begins(t)).toList();
        if (fits.size() > 1) {
            List<String> ids = fits.stream().map(AttributedRide::id).toList();
            throw CliError.usage("\"" + t + "\" fits several rides", "type more of it: " + String.join(", ", ids));
        }
        if (fits.isEmpty() || all) {
            return fits;
        }
        Map<String, AttributedRide> byId = new HashMap<>();
        rides.forEach(r -> byId.put(r.id(), r));
        List<AttributedRide> counted = new ArrayList<>();
        for (AttributedRide r : fits) {
            String twinOf = r.twinOf();
            AttributedRide of = twinOf == null ? r : byId.getOrDefault(twinOf, r);
            if (!of.counted()) {
                throw CliError.usage(
                        t + " is not counted as a ride (" + Reasons.of(of.because(), format) + ")",
                        "if it is one: chainage assign " + of.id() + " --a-ride");
            }
            counted.add(of);
        }
        return counted;
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
