package chainage.attribution;

import chainage.ledger.Rule;

/** What named a ride's bike. */
public sealed interface BikeFrom {
    /** The rider's word on this ride. */
    record Rider() implements BikeFrom {}

    /** A table of rides. */
    record Table() implements BikeFrom {}

    /** A rule. */
    record ByRule(Rule.When when) implements BikeFrom {}

    /** The bike that it follows was ridden. */
    record Follows(String bike) implements BikeFrom {}
}
