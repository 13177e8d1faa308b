package chainage.simulation;

import chainage.TestLedger;
import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.analysis.Tables;
import chainage.evidence.RiderEvidence;
import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Entry;
import chainage.ledger.Grit;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ride.FiledRide;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.treatment.OtherRiders;
import chainage.treatment.TreatmentStanding;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * What a rider noted, and what was true of it.
 *
 * @param method of all treatments
 * @param entries what was noted
 * @param outings all rides, by start
 * @param treatments by time
 * @param chains true elongation of each chain
 */
record Story(
        Scenario scenario,
        Method method,
        List<Entry> entries,
        List<Outing> outings,
        List<Treatment> treatments,
        List<Worn> chains) {
    private static final Tables TABLES = TestLedger.tables();

    /**
     * A ride.
     *
     * @param used true metres of dry clean road that it took of its treatment
     */
    record Outing(FiledRide ride, String chain, double metres, Moisture moisture, Grit grit, double used) {
        Instant start() {
            return ride.ride().start();
        }
    }

    /**
     * A treatment.
     *
     * @param typicalMetres true median of such lives, dry clean road
     * @param lowMetres true 10 % quantile of them
     * @param highMetres true 90 % quantile
     * @param lifeMetres true life of this one
     * @param noted whether its end was noted
     * @param firstRide place of its first ride among the outings
     * @param lastRide place after its last
     */
    record Treatment(
            String chain,
            String product,
            Instant at,
            double typicalMetres,
            double lowMetres,
            double highMetres,
            double lifeMetres,
            boolean noted,
            int firstRide,
            int lastRide) {}

    /**
     * A chain at the end of a ride.
     *
     * @param ride place of the ride among the outings
     * @param percent its true elongation then
     * @param readings of it so far
     */
    record Worn(String chain, int ride, Instant at, double percent, int readings) {}

    /** What the rider's file of evidence holds at the end. */
    RiderEvidence evidence() {
        Instant end = outings.get(outings.size() - 1).start().plus(Duration.ofDays(1));
        Ledger ledger = Ledger.asOf(entries, end);
        return RiderEvidence.of(ledger, exposures(ledger, end), List.of(), TABLES.factors(), true, 3);
    }

    /** What the rider's own treatments have taught at the start of one. */
    LifeModel lives(Treatment t) {
        Ledger ledger = Ledger.asOf(entries, t.at());
        return new LifeModel(
                Life.of(ledger, exposures(ledger, t.at()), TABLES.factors()), TABLES.factors(), OtherRiders.NONE);
    }

    /** What is known of lives at the start of a treatment, with what others' chains have shown; nothing else is derived. */
    LivesTable.Known known(Treatment t, OtherRiders others) {
        Ledger ledger = Ledger.asOf(entries, t.at());
        Exposures exposures = exposures(ledger, t.at());
        LifeModel lives = new LifeModel(Life.of(ledger, exposures, TABLES.factors()), TABLES.factors(), others);
        Factors factors = TABLES.factors().with(lives.leaning());
        ChainExposure chain = Objects.requireNonNull(exposures.chains().get(t.chain()));
        return new LivesTable.Known(TreatmentStanding.of(ledger, chain, lives, factors), factors);
    }

    private Exposures exposures(Ledger ledger, Instant at) {
        Snapshot facts =
                new Snapshot(entries, outings.stream().map(Outing::ride).toList(), Map.of());
        return Exposures.of(ledger, Analysis.attributed(facts, ledger, at), TestLedger.roads(ledger), TABLES.factors());
    }

    /** What the program makes of what was noted by then. */
    Analysis at(Instant at) {
        return Analysis.of(
                new Snapshot(entries, outings.stream().map(Outing::ride).toList(), Map.of()), TABLES, at);
    }
}
