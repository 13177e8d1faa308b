package chainage.wear;

import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What is known of one chain before anything is learnt: its rides as the table expects them, and its readings.
 *
 * @param used whether the rider added it as used, so that it may have started anywhere
 * @param total what the table expects of all its rides
 * @param products share of that which each product makes up; in all 1
 * @param readings in their order
 */
public record ChainWear(boolean used, Expected total, Map<String, Double> products, List<ReadingSeen> readings) {
    public ChainWear {
        products = Map.copyOf(products);
        readings = List.copyOf(readings);
    }

    static ChainWear of(ChainExposure chain, List<Event.Measured> measured, Factors factors) {
        Expected total = Expected.NONE;
        Map<String, Double> products = new LinkedHashMap<>();
        List<ReadingSeen> seen = new ArrayList<>();
        int next = 0;
        for (RideExposure r : chain.rides()) {
            while (next < measured.size()
                    && !r.start().isBefore(measured.get(next).at())) {
                seen.add(new ReadingSeen(measured.get(next++), total));
            }
            Expected ride = Expected.of(r, factors);
            total = total.plus(ride);
            products.merge(r.product().product(), ride.percent(), Double::sum);
        }
        while (next < measured.size()) {
            seen.add(new ReadingSeen(measured.get(next++), total));
        }
        double all = total.percent();
        if (all > 0) {
            products.replaceAll((p, part) -> part / all);
        } else {
            products.clear();
            products.put(chain.product().product(), 1.0);
        }
        return new ChainWear(chain.chain().used(), total, products, seen);
    }

    boolean readBy(Reading.Tool tool) {
        return readings.stream().anyMatch(s -> Likelihood.tool(s.reading()) == tool);
    }
}
