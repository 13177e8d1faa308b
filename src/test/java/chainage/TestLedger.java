package chainage;

import chainage.analysis.RoadEvidence;
import chainage.analysis.Tables;
import chainage.condition.Conditions;
import chainage.condition.RoadWords;
import chainage.exposure.Factors;
import chainage.host.Resource;
import chainage.ledger.Cleaning;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.weather.FilmParameters;
import chainage.weather.Observation;
import chainage.weather.Reach;
import chainage.weather.Stations;
import chainage.weather.WaterFilm;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

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
        return Factors.parse(Resource.text("/chainage/exposure/factors.tsv"));
    }

    /** How far a weather record speaks, as shipped. */
    public static Reach reach() {
        return RoadEvidence.reach(factors());
    }

    /** What the water on a road does, as shipped. */
    public static FilmParameters film() {
        return RoadEvidence.film(factors());
    }

    /** What the program brings along. */
    public static Tables tables() {
        return new Tables(factors(), Resource.text("/chainage/condition/words.tsv"));
    }

    /** The evidence on roads: this ledger's flags and words, and no weather records. */
    public static Conditions roads(Ledger ledger) {
        return roads(ledger, List.of());
    }

    /** The same with weather records. */
    public static Conditions roads(Ledger ledger, List<Observation> records) {
        return roads(ledger, records, false);
    }

    /** The same with the rider's rule on salt. */
    public static Conditions roads(Ledger ledger, List<Observation> records, boolean salted) {
        return new Conditions(
                ledger,
                RoadWords.of(Resource.text("/chainage/condition/words.tsv"), List.of()),
                new WaterFilm(Stations.of(records), reach(), film()),
                salted);
    }
}
