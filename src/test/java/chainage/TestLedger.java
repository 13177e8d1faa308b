package chainage;

import chainage.exposure.Factors;
import chainage.ledger.Cleaning;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** A ledger written fact by fact. */
public final class TestLedger {
    private final List<Entry> entries = new ArrayList<>();

    public TestLedger add(Event... events) {
        for (Event e : events) {
            entries.add(new Entry(entries.size() + 1, entries.size() + 1, Instant.parse("2026-01-01T00:00:00Z"), e));
        }
        return this;
    }

    public TestLedger bike(String name) {
        return add(new Event.BikeDescribed(name, List.of(), List.of(), null));
    }

    public TestLedger chain(String name) {
        return add(new Event.ChainDescribed(name, 112, 11, null, null));
    }

    public TestLedger installed(String chain, String bike, String at) {
        return add(new Event.Installed(chain, bike, Instant.parse(at)));
    }

    public TestLedger removed(String chain, String at) {
        return add(new Event.Removed(chain, Instant.parse(at)));
    }

    public TestLedger treated(String chain, String product, String at) {
        return add(new Event.Treated(chain, product, Instant.parse(at), Cleaning.DEEP, null, null));
    }

    public Ledger ledger() {
        return Ledger.of(entries);
    }

    public List<Entry> entries() {
        return List.copyOf(entries);
    }

    /** The factors as shipped. */
    public static Factors factors() {
        try (InputStream in = TestLedger.class.getResourceAsStream("/chainage/exposure/factors.tsv")) {
            return Factors.parse(new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
