package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A ledger that is brought up by one fact is the one that all facts make. */
class GrowingTest {
    private static final List<String> BIKES = List.of("Dunlin", "Otter", "dunlin");
    private static final List<String> CHAINS = List.of("Amber", "Ochre", "Slate", "amber");
    private static final List<String> PRODUCTS = List.of("Kettle Block", "hot-wax", "wax");
    private static final Instant START = Instant.parse("2026-01-01T00:00:00Z");

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void growsIntoWhatIsFolded(long seed) {
        Random random = new Random(seed);
        Growing growing = new Growing();
        List<Entry> all = new ArrayList<>();
        Instant at = START;
        for (long number = 1; number <= 120; number++) {
            // Most come in order, some at one instant, some behind.
            at = at.plus(Duration.ofHours(random.nextInt(6) == 0 ? -30 : random.nextInt(4) * 5L));
            Entry entry = new Entry(number, number, START, any(random, at, number));
            growing.ledger();
            growing.add(entry);
            all.add(entry);
            same(Ledger.of(all), growing.ledger(), "seed " + seed + ", " + all);
        }
    }

    private static void same(Ledger folded, Ledger grown, String what) {
        assertEquals(folded.inForce(), grown.inForce(), what);
        assertEquals(folded.facts(), grown.facts(), what);
        assertTrue(folded.means(grown), what);
        assertEquals(new HashSet<>(folded.problems()), new HashSet<>(grown.problems()), what);
        assertEquals(folded.problems().size(), grown.problems().size(), what);
        assertEquals(folded.installations(), grown.installations(), what);
        for (Installation i : folded.installations()) {
            Instant at = i.interval().from();
            for (String bike : BIKES) {
                assertEquals(onBike(folded, bike, at), grown.installedOn(bike, at), what);
                assertEquals(folded.followers(bike, at), grown.followers(bike, at), what);
            }
        }
        for (String product : PRODUCTS) {
            assertEquals(
                    folded.treatmentsWith(product).stream()
                            .filter(t -> !t.at().isAfter(START.plus(Duration.ofDays(10))))
                            .reduce((a, b) -> b.at().isAfter(a.at()) ? b : a),
                    grown.lastTreatmentWith(product, START.plus(Duration.ofDays(10))),
                    what);
        }
    }

    /** The later of two that overlap. */
    private static Optional<Installation> onBike(Ledger ledger, String bike, Instant at) {
        return ledger.installations().stream()
                .filter(i -> i.bike().equals(bike) && i.interval().contains(at))
                .reduce((a, b) -> b);
    }

    private static Event any(Random random, Instant at, long number) {
        String bike = pick(random, BIKES.subList(0, 2));
        String chain = pick(random, CHAINS.subList(0, 3));
        String product = pick(random, PRODUCTS);
        return switch (random.nextInt(number < 12 ? 3 : 14)) {
            case 0 -> new Event.BikeDescribed(pick(random, BIKES), List.of(34, 50), List.of(11, 28), null);
            case 1, 2 -> new Event.ChainDescribed(pick(random, CHAINS), 112, 11, null, null);
            case 3 -> new Event.ProductDescribed(product, Method.HOT_WAX, null, null);
            case 4, 5 -> new Event.Installed(chain, bike, at);
            case 6, 7 -> new Event.Removed(chain, at);
            case 8 -> new Event.Treated(chain, product, at, Cleaning.DEEP, null, null, Heard.QUIET);
            case 9, 10 -> new Event.Treated(chain, product, at, Cleaning.QUICK, null, null);
            case 11 -> new Event.Remarked(chain, at, Remark.NOISY, "");
            case 12 -> new Event.Undone(1 + random.nextInt((int) number));
            default -> new Event.Renamed(Event.Named.CHAIN, chain, pick(random, CHAINS));
        };
    }

    private static <T> T pick(Random random, List<T> from) {
        return from.get(random.nextInt(from.size()));
    }
}
