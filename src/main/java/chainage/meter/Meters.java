package chainage.meter;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.MeterPlace;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Which meter wrote a recording's power, and where it sits. */
public final class Meters {
    private static final String POWER = "bike_power";
    private static final String TRAINER = "fitness_equipment";
    private static final String WRITER = "head_unit";

    private final Ledger ledger;

    public Meters(Ledger ledger) {
        this.ledger = ledger;
    }

    /**
     * The meter whose power a recording holds: its one power meter, else its one trainer, else the device that wrote the
     * file, as a trainer's own program does; empty where it names several that the rider has not told apart, or none.
     * Files do not say which of their devices the power came from.
     */
    public Optional<Ride.Device> of(Ride ride) {
        for (String type : List.of(POWER, TRAINER, WRITER)) {
            List<Ride.Device> seen = new ArrayList<>();
            Set<String> serials = new HashSet<>();
            for (Ride.Device d : ride.devices()) {
                // One meter may report under two types.
                if (d.type().equals(type) && !isNotRecorded(d) && serials.add(d.serial())) {
                    seen.add(d);
                }
            }
            if (seen.size() > 1) {
                return Optional.empty();
            }
            if (!seen.isEmpty()) {
                return Optional.of(seen.get(0));
            }
        }
        return Optional.empty();
    }

    /** Where a meter sits by the rider's word. */
    public Optional<MeterPlace> place(Ride.Device meter) {
        return Optional.ofNullable(ledger.meters().get(meter.name())).map(Event.MeterPlaced::place);
    }

    private boolean isNotRecorded(Ride.Device d) {
        return place(d).filter(p -> p == MeterPlace.NOT_RECORDED).isPresent();
    }
}
