package chainage.store;

import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** Finds the rides with power whose time another one's overlaps: those that may tell more together. */
final class Overlaps {
    private final List<Span> spans = new ArrayList<>();

    /** @param number of the row */
    private record Span(long number, long from, long to) {}

    void add(long number, Ride ride) {
        if (!Double.isNaN(ride.effort().watts())) {
            spans.add(new Span(number, ride.start().toEpochMilli(), ride.end().toEpochMilli()));
        }
    }

    /** Numbers of their rows. */
    Set<Long> numbers() {
        spans.sort(Comparator.comparingLong(Span::from).thenComparingLong(Span::number));
        Set<Long> numbers = new TreeSet<>();
        Span latest = null;
        for (Span s : spans) {
            if (latest != null && s.from() < latest.to()) {
                numbers.add(latest.number());
                numbers.add(s.number());
            }
            if (latest == null || s.to() > latest.to()) {
                latest = s;
            }
        }
        return numbers;
    }
}
