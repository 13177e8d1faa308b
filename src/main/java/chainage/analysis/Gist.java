package chainage.analysis;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.exposure.TreatmentSchedule;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.Estimate;
import chainage.quantity.Lazy;
import chainage.quantity.LocalClock;
import chainage.ride.LateList;
import chainage.standing.Habits;
import chainage.standing.Reached;
import chainage.treatment.TreatmentStanding;
import chainage.wear.Expected;
import chainage.wear.ReadingSeen;
import chainage.wear.WearModel;
import chainage.wear.WearStanding;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What an analysis has worked out, in so few figures that where the chains stand follows from them and from what is
 * stated, without any ride. It holds from the last date that the analysis goes by to the next: between two dates the
 * instant moves nothing but the weeks that are counted back from it.
 *
 * @param from the last date of a fact or a ride by then
 * @param until the next one; null for none
 * @param leaning how wet and dirty roads count, as learnt
 * @param chains those in use, in the order of the exposures
 * @param habits as of {@code from}
 * @param bare rides without a chain
 * @param bareMetres of them all
 * @param last when the last ride of each bike began
 * @param told what the rides say of the local time; empty where none says other than the zone
 */
public record Gist(
        Instant from,
        @Nullable Instant until,
        Leaning leaning,
        List<Chain> chains,
        Habits habits,
        List<Bare> bare,
        double bareMetres,
        Map<String, Instant> last,
        Map<Instant, LocalClock.Told> told) {
    /**
     * One chain. What is stated of it is not in here.
     *
     * @param name its name
     * @param riddenMetres in all
     * @param wearMetres what they were worth in wear
     * @param lastBike the bike of its last ride; null for none
     * @param life of its treatment; null for an untreated one
     * @param limitMetres at which its treatment is due
     * @param treatedMetres ridden since its treatment
     * @param exposureMetres the same, as weighted
     * @param basis what is known of the life; null for an untreated one
     * @param elongationPercent now
     * @param ridableMetres to the limit
     * @param over chance that it is past its limit
     * @param expected of all its rides
     * @param percentPerMetre table elongation a ridden metre
     * @param readings what was expected at each of its readings
     * @param othersRead how many other chains have readings
     * @param othersWeight what other riders' chains weigh in how fast it wears
     * @param doubts readings that do not fit, worst first
     */
    public record Chain(
            String name,
            double riddenMetres,
            double wearMetres,
            @Nullable String lastBike,
            @Nullable Estimate life,
            double limitMetres,
            double treatedMetres,
            double exposureMetres,
            TreatmentStanding.@Nullable Basis basis,
            Estimate elongationPercent,
            Estimate ridableMetres,
            double over,
            Expected expected,
            double percentPerMetre,
            List<Expected> readings,
            int othersRead,
            double othersWeight,
            List<Doubt> doubts) {
        static Chain of(Reached r, List<WearModel.Doubt> doubts) {
            TreatmentStanding t = r.treatment();
            WearStanding w = r.wear();
            return new Chain(
                    r.exposure().chain().chain(),
                    r.riddenMetres(),
                    r.wearMetres(),
                    r.lastBike(),
                    t.lifeMetres(),
                    t.limitMetres(),
                    t.riddenMetres(),
                    t.exposureMetres(),
                    t.basis() == null ? null : t.basis().get(),
                    w.elongationPercent(),
                    w.ridableMetres(),
                    w.over(),
                    w.expected(),
                    w.percentPerMetre(),
                    w.readings().stream().map(ReadingSeen::expected).toList(),
                    w.othersRead(),
                    w.othersWeight(),
                    doubts.stream()
                            .map(d -> new Doubt(w.readings().indexOf(d.seen()), d.expected(), d.chance()))
                            .toList());
        }

        private List<ReadingSeen> seen(Ledger ledger) {
            List<Event.Measured> measured = ledger.readings(name);
            List<ReadingSeen> seen = new ArrayList<>();
            for (int i = 0; i < readings.size(); i++) {
                seen.add(new ReadingSeen(measured.get(i), readings.get(i)));
            }
            return seen;
        }

        private Reached reached(Ledger ledger, Factors factors, Instant at, Whole whole) {
            Event.ChainDescribed chain = Objects.requireNonNull(ledger.chains().get(name));
            TreatmentSchedule schedule = TreatmentSchedule.noted(ledger, name);
            TreatmentSchedule.Treatment now = schedule.at(schedule.first(), Instant.MAX, 0, 0);
            Lazy<Reached> worked = new Lazy<>(() -> whole.reached().get().stream()
                    .filter(r -> r.exposure().chain().chain().equals(name))
                    .findFirst()
                    .orElseThrow());
            return new Reached(
                    new ChainExposure(
                            chain,
                            new LateList<>(() -> Objects.requireNonNull(
                                            whole.exposures().get().chains().get(name))
                                    .rides()),
                            now.product(),
                            now.at()),
                    ledger.installationOf(name, at).orElse(null),
                    new TreatmentStanding(
                            life == null
                                    ? null
                                    : new Lazy<>(() -> Objects.requireNonNull(
                                            worked.get().treatment().product())),
                            basis == null ? null : Lazy.known(basis),
                            life,
                            limitMetres,
                            treatedMetres,
                            exposureMetres,
                            ledger.noiseSinceTreatment(name)
                                    .map(Event.Remarked::at)
                                    .orElse(null)),
                    new WearStanding(
                            new Lazy<>(() -> worked.get().wear().elongation()),
                            elongationPercent,
                            ridableMetres,
                            over,
                            WearStanding.limit(chain, factors),
                            chain.used(),
                            expected,
                            percentPerMetre,
                            seen(ledger),
                            othersRead,
                            othersWeight,
                            ledger.outOfService(name).orElse(null)),
                    riddenMetres,
                    wearMetres,
                    lastBike);
        }
    }

    /**
     * A reading that does not fit.
     *
     * @param reading its place among the chain's
     * @param expected the elongation then by all else, per cent
     * @param chance of a reading so far off
     */
    public record Doubt(int reading, Estimate expected, double chance) {}

    /** The dates of all that is stated, and of all rides. */
    static List<Instant> dates(Snapshot facts) {
        return Stream.concat(
                        Ledger.of(facts.entries()).facts().stream().flatMap(e -> e.happened().stream()),
                        facts.rides().stream().map(r -> r.ride().start()))
                .toList();
    }

    /** Whether it holds at an instant. */
    public boolean holds(Instant at) {
        return !at.isBefore(from) && (until == null || at.isBefore(until));
    }

    /** All that it is the gist of, worked out when it is asked for. */
    record Whole(Lazy<Exposures> exposures, Lazy<List<Reached>> reached) {}

    List<Reached> reached(Ledger ledger, Factors factors, Instant at, Whole whole) {
        return chains.stream().map(c -> c.reached(ledger, factors, at, whole)).toList();
    }

    /** Readings that do not fit, by the chains in use. */
    Map<String, List<WearModel.Doubt>> doubts(Ledger ledger) {
        Map<String, List<WearModel.Doubt>> doubts = new LinkedHashMap<>();
        for (Chain c : chains) {
            List<ReadingSeen> seen = c.seen(ledger);
            doubts.put(
                    c.name(),
                    c.doubts().stream()
                            .map(d -> new WearModel.Doubt(seen.get(d.reading()), d.expected(), d.chance()))
                            .toList());
        }
        return doubts;
    }
}
