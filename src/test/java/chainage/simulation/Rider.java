package chainage.simulation;

import chainage.TestLedger;
import chainage.TestRides;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.ledger.Rule;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * One rider with one bike, day by day. Rides at nine, notes what was heard at seven in the evening, treats at eight,
 * measures at nine.
 */
final class Rider {
    /** What treatments are said to do; the rider's own stray about it. Kilometres and times of dry clean road. */
    private record Kind(
            Method method, double life, double damp, double wet, double dusty, double gritty, double rate) {}

    private static final List<Kind> KINDS = List.of(
            new Kind(Method.HOT_WAX, 290, 1.5, 4, 1.1, 2, 0.025),
            new Kind(Method.DRIP_WAX, 540, 1.5, 3.5, 1.2, 2, 0.036),
            new Kind(Method.WET_LUBE, 330, 1.2, 1.5, 2, 3, 0.060));
    private static final double BARE_RATE = 0.12;
    private static final LocalDate FIRST = LocalDate.of(2023, 3, 1);
    private static final String BIKE = "Dunlin";

    private final Scenario scenario;
    private final Traits traits;
    private final Random random;
    private final int days;
    private final Kind kind;
    private final TestLedger facts = new TestLedger();
    private final List<Story.Outing> outings = new ArrayList<>();
    private final List<Story.Treatment> treatments = new ArrayList<>();
    private final List<Story.Worn> worn = new ArrayList<>();

    // The rider.
    private final double daily;
    private final double usualKm;
    private final double spread;
    private final double typicalKm;
    private final double shape;
    private final double ridersWear;
    private final double patienceKm;

    // The chain as it is.
    private int chains = 0;
    private String chain = "";
    private double pace;
    private double percent;
    private double sinceReading;
    private double nextReading;
    private int readings;

    // Its treatment.
    private String product = "";
    private Instant at = time(FIRST, 1);
    private double lifeKm;
    private double used;
    private double heardAt;
    private double patience;
    private boolean willNote;
    private boolean heard;
    private int firstRide;
    private int treated = 0;

    private Rider(Scenario scenario, Traits traits, long seed, int days) {
        this.scenario = scenario;
        this.traits = traits;
        this.random = new Random(seed * 7919 + 17);
        this.days = days;
        int any = random.nextInt(KINDS.size());
        kind = KINDS.get(traits.method < 0 ? any : traits.method);
        daily = between(0.25, 0.65);
        usualKm = between(30, 80);
        spread = between(0.3, 0.6);
        typicalKm = kind.life * between(0.75, 1.3) * traits.lifeTimes;
        shape = between(3.2, 6);
        ridersWear = Math.exp(0.3 * random.nextGaussian());
        patienceKm = typicalKm * between(0.6, 1.2);
    }

    /** A rider's story. */
    static Story story(Scenario scenario, long seed, int days) {
        return new Rider(scenario, scenario.traits(), seed, days).lived();
    }

    /** The story of a rider whose oddness is made by hand. */
    static Story story(Traits traits, long seed, int days) {
        return new Rider(Scenario.TABLE_TRUE, traits, seed, days).lived();
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    private Story lived() {
        facts.add(
                new Event.BikeDescribed(BIKE, List.of(), List.of(), null),
                new Event.RuleSet(new Rule(new Rule.Otherwise(), BIKE, null)));
        for (String name : List.of("Kettle Block", "Candle Block")) {
            facts.add(new Event.ProductDescribed(name, kind.method, null, null));
        }
        newChain(FIRST);
        for (int d = 0; d < days; d++) {
            LocalDate day = FIRST.plusDays(d);
            boolean second = d > days / 2;
            boolean off = traits.wintersOff && (day.getMonthValue() >= 11 || day.getMonthValue() <= 2);
            if (!off && random.nextDouble() < (traits.habitChanged && second ? daily / 2 : daily)) {
                ride(day, traits.habitChanged && second);
            }
        }
        endTreatment();
        return new Story(
                scenario,
                kind.method,
                facts.entries(),
                List.copyOf(outings),
                List.copyOf(treatments),
                List.copyOf(worn));
    }

    private void newChain(LocalDate day) {
        if (chains > 0) {
            facts.add(
                    new Event.Removed(chain, time(day, 20)),
                    new Event.Remarked(chain, time(day, 21), Remark.RETIRED, ""));
        }
        chain = "Chain " + ++chains;
        facts.add(
                new Event.ChainDescribed(chain, 112, 11, null, null),
                new Event.Installed(chain, BIKE, time(day, chains == 1 ? 1 : 20)));
        pace = traits.wearTimes * ridersWear * Math.exp(0.25 * random.nextGaussian());
        percent = 0;
        readings = 0;
        sinceReading = 0;
        nextReading = between(400, 1000);
        treat(day, chains == 1 ? 1 : 20);
        measure(day);
    }

    private static Instant time(LocalDate day, int hour) {
        return day.atTime(LocalTime.of(hour, 0)).toInstant(ZoneOffset.UTC);
    }

    private void ride(LocalDate day, boolean changed) {
        double km = Math.exp(Math.log(usualKm * (changed ? 1.6 : 1)) + spread * random.nextGaussian());
        km = Math.round(10 * Math.max(20, Math.min(200, km))) / 10.0;
        boolean winter = day.getMonthValue() >= 10 || day.getMonthValue() <= 3;
        double weather = random.nextDouble();
        double wet = (winter ? 0.25 : 0.1) * (changed ? 1.5 : 1);
        Moisture moisture = weather < wet ? Moisture.WET : weather < 1.5 * wet ? Moisture.DAMP : Moisture.DRY;
        double road = random.nextDouble();
        Grit grit = road < (winter ? 0.2 : 0.1) ? Grit.GRITTY : road < 0.3 ? Grit.DUSTY : Grit.CLEAN;

        // Kilometre by kilometre, since the rate of wear follows the treatment.
        double times = moistureTimes(moisture) * gritTimes(grit);
        double wearTimes = (moisture == Moisture.WET ? 1.8 : moisture == Moisture.DAMP ? 1.3 : 1)
                * (grit == Grit.GRITTY ? 2.5 : grit == Grit.DUSTY ? 1.3 : 1);
        double before = used;
        for (double left = km; left > 0; left -= 1) {
            double step = Math.min(1, left);
            used += step * times;
            double past = Math.max(0, Math.min(1, used / lifeKm - 1));
            percent += pace * step / 1000 * wearTimes * (kind.rate + (BARE_RATE - kind.rate) * past);
        }
        sinceReading += km;

        // No word of a road may be in a file's name.
        TestRides recorded = TestRides.ride("r" + outings.size(), time(day, 9).toString(), km);
        outings.add(new Story.Outing(recorded.filed(), chain, km * 1000, moisture, grit, (used - before) * 1000));
        if (moisture != Moisture.DRY || grit != Grit.CLEAN) {
            facts.add(new Event.Tagged(
                    List.of(recorded.id()),
                    moisture == Moisture.DRY ? null : moisture,
                    1,
                    grit == Grit.CLEAN ? null : grit));
        }
        evening(day);
    }

    private double moistureTimes(Moisture moisture) {
        return switch (moisture) {
            case WET -> kind.wet * traits.wetTimes;
            case DAMP -> 1 + (kind.damp - 1) * traits.wetTimes;
            default -> 1;
        };
    }

    private double gritTimes(Grit grit) {
        double of = grit == Grit.GRITTY ? kind.gritty : grit == Grit.DUSTY ? kind.dusty : 1;
        return Math.max(1, of * (grit == Grit.CLEAN ? 1 : traits.gritTimes));
    }

    private void evening(LocalDate day) {
        boolean mistaken = traits.falseNoise && treated == 4 && !heard;
        if (!heard && (used >= heardAt || mistaken)) {
            heard = true;
            if (mistaken || willNote) {
                facts.add(new Event.Remarked(chain, time(day, 19), Remark.NOISY, ""));
            }
        }
        // Some ride once more on a chain that they hear; some renew long before they hear anything.
        boolean renew = heard ? random.nextDouble() < 0.8 : used >= patience;
        boolean measure = sinceReading >= nextReading;
        if (measure) {
            measure(day);
            sinceReading = 0;
            nextReading = between(500, 1400);
        }
        worn.add(new Story.Worn(chain, outings.size() - 1, time(day, 22), percent, readings));
        if (percent > 0.6) {
            endTreatment();
            newChain(day);
        } else if (renew) {
            endTreatment();
            treat(day, 20);
        }
    }

    private void treat(LocalDate day, int hour) {
        product = traits.twoProducts && treated % 2 == 1 ? "Candle Block" : "Kettle Block";
        double typical = typicalOf(product);
        // Weibull, by its median.
        lifeKm = typical * Math.pow(-Math.log(1 - random.nextDouble()) / Math.log(2), 1 / shape);
        heardAt = lifeKm * (1 + between(traits.lateFrom, traits.lateTo));
        patience = patienceKm * between(0.7, 1.8) * (typical / typicalKm);
        willNote = random.nextDouble() < traits.noted;
        used = 0;
        heard = false;
        firstRide = outings.size();
        facts.add(new Event.Treated(chain, product, time(day, hour), Cleaning.DEEP, null, null));
        at = time(day, hour);
        treated++;
    }

    private double typicalOf(String product) {
        double times = Math.sqrt(traits.firstTimes);
        return !traits.twoProducts ? typicalKm : typicalKm * (product.startsWith("Kettle") ? times : 1 / times);
    }

    private void endTreatment() {
        double typical = typicalOf(product) * 1000;
        treatments.add(new Story.Treatment(
                chain,
                product,
                at,
                typical,
                typical * Math.pow(-Math.log(0.9) / Math.log(2), 1 / shape),
                typical * Math.pow(-Math.log(0.1) / Math.log(2), 1 / shape),
                lifeKm * 1000,
                heard && willNote,
                firstRide,
                outings.size()));
    }

    private void measure(LocalDate day) {
        double off = random.nextDouble() < traits.gross ? (random.nextBoolean() ? 0.4 : -0.3) : 0;
        readings++;
        if (traits.gauge) {
            boolean drops = percent + off + traits.bias + 0.05 * random.nextGaussian() >= 0.5;
            facts.add(new Event.Measured(chain, time(day, 21), new Reading.Gauge(0.5, drops)));
        } else {
            double read = percent + off + traits.bias + 0.05 * random.nextGaussian();
            facts.add(new Event.Measured(
                    chain,
                    time(day, 21),
                    new Reading.Elongation(Math.round(100 * read) / 100.0, Reading.Tool.CALLIPER, 8)));
        }
    }
}
