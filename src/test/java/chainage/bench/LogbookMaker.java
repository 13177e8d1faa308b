package chainage.bench;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Writes the logbook of a rider who has noted everything for 20 years: bikes with two chains each that take turns, are
 * treated before each turn and within it, are measured when they come off, and make room for new ones.
 */
final class LogbookMaker {
    /** What all lines lie before. */
    static final Instant END = LedgerMaker.AT;

    static final Duration YEARS = Duration.ofDays(20 * 365);
    static final int BIKES = 3;

    /** One more line, behind all others. */
    static final String LAST = "2026-05-31 treat \"Chain 0-0\" \"Kettle Block\"\n";

    private static final int TURNS_A_CHAIN = 20;
    private static final String HEAD = "chainage logbook\n";

    private final Instant first = END.minus(YEARS);
    private final List<String> lines = new ArrayList<>();
    private final int wanted;
    private final int rides;

    private LogbookMaker(int wanted, int rides) {
        this.wanted = wanted;
        this.rides = rides;
    }

    /**
     * A logbook.
     *
     * @param lines how many state facts
     * @param rides how many {@link LedgerMaker} spreads over these years, to be tagged; 0 for none
     */
    static String of(int lines, int rides) {
        return HEAD + String.join("\n", new LogbookMaker(lines, rides).lines()) + "\n";
    }

    private List<String> lines() {
        for (int b = 0; b < BIKES; b++) {
            add(0, "bike add \"%s\" --rings 34,50 --cogs 11,12,13,14,15,17,19,21,24,27,30", LedgerMaker.bike(b));
            add(0, "assign --sensor bike_power:%s --bike \"%s\"", LedgerMaker.serial(b), LedgerMaker.bike(b));
        }
        add(0, "product add \"Kettle Block\" --method hot-wax --price 20EUR --amount 500ml");
        int turns = (wanted - lines.size()) / 5;
        for (int turn = 0; lines.size() < wanted; turn++) {
            turn(turn, Math.min(0.999, (double) turn / turns), Math.min(0.999, (turn + 0.5) / turns));
        }
        return lines.subList(0, wanted);
    }

    /** One turn of a chain: noted when it comes on, and half way through it. */
    private void turn(int turn, double at, double later) {
        int bike = turn % BIKES;
        int own = turn / BIKES;
        // Two take turns until both are worn.
        int pair = own / (2 * TURNS_A_CHAIN);
        String chain = chain(bike, 2 * pair + own % 2);
        if (own % (2 * TURNS_A_CHAIN) < 2) {
            if (pair > 0) {
                add(at, "remark \"%s\" retired", chain(bike, 2 * (pair - 1) + own % 2));
            }
            add(at, "chain add \"%s\" --speeds 11 --price 30EUR", chain);
        }
        add(at, "treat \"%s\" \"Kettle Block\" --cleaning deep --minutes 25", chain);
        add(at, "install \"%s\" \"%s\" --swap", chain, LedgerMaker.bike(bike));
        if (own % (2 * TURNS_A_CHAIN) >= 2) {
            double worn = 0.02 * (own % (2 * TURNS_A_CHAIN)) / 2;
            add(at, "measure \"%s\" %.2f%% --tool ruler", chain, worn);
        }
        if (rides > 0) {
            add(LedgerMaker.start((int) (later * rides), rides, YEARS), "tag %s", turn % 3 == 0 ? "wet" : "gritty");
        } else {
            add(later, "remark \"%s\" note \"no noise yet\"", chain);
        }
        add(later, "treat \"%s\" \"Kettle Block\" --cleaning quick", chain);
    }

    private static String chain(int bike, int number) {
        return String.format(Locale.ROOT, "Chain %d-%d", bike, number);
    }

    private void add(double part, String words, Object... values) {
        add(first.plusSeconds((long) (part * YEARS.toSeconds())), words, values);
    }

    private void add(Instant at, String words, Object... values) {
        lines.add(LocalDate.ofInstant(at, ZoneOffset.UTC) + " " + String.format(Locale.ROOT, words, values));
    }
}
