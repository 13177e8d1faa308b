package chainage.cli;

import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Entry;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.ride.FiledRide;
import chainage.standing.Estimates;
import chainage.standing.Standing;
import chainage.standing.Standings;
import chainage.store.Snapshot;
import chainage.treatment.Lives;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Everything that follows from the facts at one instant: the one place where the derivations are chained.
 *
 * @param at the instant
 * @param entries all entries, in order of their numbers
 * @param ledger the snapshot of those dated up to then
 * @param rides every activity that had begun, with its verdict, by start
 * @param exposures what they did to the chains
 * @param estimates what all chains together have taught
 * @param standings where the chains stand, nearest its limit first
 * @param factors the table used, with the rider's own values in it
 */
record Picture(
        Instant at,
        List<Entry> entries,
        Ledger ledger,
        List<AttributedRide> rides,
        Exposures exposures,
        Estimates estimates,
        List<Standing> standings,
        Factors factors) {

    static Picture of(Snapshot facts, Factors table, Instant at) {
        List<Entry> entries = facts.entries();
        Ledger ledger = Ledger.asOf(entries, at);
        Factors factors = table.with(ledger.factors());
        List<FiledRide> begun = facts.rides().stream()
                .filter(r -> !r.ride().start().isAfter(at))
                .toList();
        List<AttributedRide> rides = Attribution.of(ledger, begun);
        Exposures exposures = Exposures.of(ledger, rides, Roads.of(ledger, facts.weather(), factors), factors);
        Estimates estimates = Estimates.of(ledger, exposures, factors);
        return new Picture(
                at,
                entries,
                ledger,
                rides,
                exposures,
                estimates,
                Standings.of(ledger, rides, exposures, estimates, factors, at),
                factors);
    }

    /** How long a product's treatment lasts, by what the treatments' standings go by. */
    Lives lives() {
        return product -> product.method() == Method.NONE
                ? null
                : estimates.lives().of(product).life();
    }

    /** All facts, those dated after the instant too: what a change must fit in with. */
    Ledger facts() {
        return Ledger.of(entries);
    }

    Optional<Standing> standing(String chain) {
        return standings.stream().filter(s -> s.chain().equals(chain)).findFirst();
    }
}
