package chainage.demo;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.SortedMap;
import java.util.StringJoiner;
import java.util.stream.IntStream;

/**
 * What the chains of three riders of the season's club have shown, as files of evidence: invented riders, like the season's
 * own. Their lives and wear follow from what {@link #MATES} says of them, ride by ride, with fixed seeds.
 */
final class ClubMates {
    /**
     * A product as it really is.
     *
     * @param word as the club writes it
     * @param km typical life on dry, clean road
     * @param rate elongation there, per cent a kilometre
     * @param lost of the power when fresh, per cent
     * @param rises by so much over a life
     */
    private record Product(
            String method, String word, double km, double wet, double gritty, double rate, double lost, double rises) {}

    private static final Product KETTLE = new Product("hot-wax", "Kettle Block", 330, 3.6, 2.1, 0.030e-3, 1.3, 0.9);
    private static final Product LANTERN = new Product("drip-wax", "Lantern Drip", 560, 3.2, 2.2, 0.038e-3, 1.6, 1.1);
    private static final Product MARSH = new Product("wet-lube", "Marsh Oil", 380, 1.5, 3.0, 0.070e-3, 2.0, 1.3);
    private static final double BARE = 0.12e-3;

    /**
     * A rider.
     *
     * @param file its name
     * @param life how many times as long as usual treatments last
     * @param wear how many times as fast as usual chains wear
     * @param products in turns, with how many treatments each
     * @param paired rides with two power meters, on the first two products in turns
     */
    private record Mate(
            String file,
            long seed,
            double life,
            double wear,
            double load,
            int treatments,
            List<Product> products,
            int paired) {}

    private static final List<Mate> MATES = List.of(
            new Mate("siskin", 3, 1.1, 0.9, 0.9, 22, List.of(KETTLE, LANTERN), 0),
            new Mate("brambling", 5, 0.95, 1.2, 1.1, 18, List.of(MARSH, KETTLE), 0),
            new Mate("twite", 7, 1.05, 1.05, 1.0, 20, List.of(LANTERN, KETTLE, MARSH), 12));

    private static final List<String> MOISTURES = List.of("dry", "damp", "wet");
    private static final List<String> GRITS = List.of("clean", "dusty", "gritty");

    private final Mate mate;
    private final Random random;
    private final List<String> treatments = new ArrayList<>();
    private final List<String> chains = new ArrayList<>();

    // The chain as it is.
    private final Map<Product, Ridden> ridden = new LinkedHashMap<>();
    private StringJoiner readings = new StringJoiner(",");
    private double percent;
    private int sinceReading;
    private int readAt;

    /** Kilometres by road, and how much of their wear was on a worn-off treatment. */
    private static final class Ridden {
        final int[] km = new int[9];
        double wear;
        double wornOff;
    }

    private ClubMates(Mate mate) {
        this.mate = mate;
        this.random = new Random(mate.seed());
    }

    /** Adds the files, by path below {@code fixtures/season}. */
    static void addTo(SortedMap<String, byte[]> files) {
        for (Mate m : MATES) {
            files.put("others/" + m.file() + ".jsonl", new ClubMates(m).file().getBytes(StandardCharsets.UTF_8));
        }
    }

    private String file() {
        read();
        for (int t = 0; t < mate.treatments(); t++) {
            treat(mate.products().get(t % mate.products().size()), t == mate.treatments() - 1);
        }
        closeChain();
        treatments.sort(null);
        chains.sort(null);
        List<String> lines =
                new ArrayList<>(List.of("{\"format\":\"chain evidence\",\"version\":3,\"distance\":\"km\"}"));
        lines.addAll(treatments);
        lines.addAll(chains);
        if (mate.paired() > 0) {
            lines.add(paired());
        }
        return String.join("\n", lines) + "\n";
    }

    private void treat(Product product, boolean running) {
        double life = product.km() * mate.life() * Math.exp(0.22 * random.nextGaussian());
        // Some renew before they hear anything.
        double patience = random.nextInt(4) == 0 ? 0.75 * life : Double.MAX_VALUE;
        double used = 0;
        int[] km = new int[9];
        int last = 0;
        int lastCell = 0;
        while (used < life && used < patience && !(running && used > 0.4 * life)) {
            last = 5 * (5 + random.nextInt(16));
            int moisture = random.nextInt(100) < 80 ? 0 : 1 + random.nextInt(2);
            int grit = random.nextInt(100) < 78 ? 0 : 1 + random.nextInt(2);
            lastCell = 3 * moisture + grit;
            km[lastCell] += last;
            double before = used;
            used += last
                    * (moisture == 2 ? product.wet() : moisture == 1 ? 1.3 : 1)
                    * (grit == 2 ? product.gritty() : grit == 1 ? 1.2 : 1);
            wear(product, last, moisture, grit, Math.max(0, Math.min(1, ((before + used) / 2 - life) / life)));
        }
        boolean heard = used >= life;
        treatments.add("{\"rider\":1,\"method\":\"" + product.method() + "\",\"product\":\"" + product.word()
                + "\",\"cleaning\":\"" + (random.nextInt(3) == 0 ? "deep" : "quick") + "\",\"load\":" + mate.load()
                + ",\"km\":" + roads(km)
                + (heard ? ",\"last_ride_km\":{\"" + road(lastCell) + "\":" + last + "}" : "")
                + ",\"end\":\"" + (running ? "running" : heard ? "noisy" : "silent") + "\"}");
        if (sinceReading >= 500) {
            read();
        }
        if (percent > 0.45) {
            closeChain();
            read();
        }
    }

    private void wear(Product product, int km, int moisture, int grit, double past) {
        double road = (moisture == 2 ? 1.8 : moisture == 1 ? 1.3 : 1) * (grit == 2 ? 2.5 : grit == 1 ? 1.3 : 1);
        percent += mate.wear() * mate.load() * km * road * (product.rate() + past * (BARE - product.rate()));
        sinceReading += km;
        Ridden r = ridden.computeIfAbsent(product, p -> new Ridden());
        r.km[3 * moisture + grit] += km;
        r.wear += km * road;
        r.wornOff += km * road * past;
    }

    /** A calliper's reading, in hundredths of a per cent. */
    private void read() {
        StringJoiner parts = new StringJoiner(",", "[", "]");
        ridden.forEach((product, r) -> parts.add("{\"method\":\"" + product.method() + "\",\"product\":\""
                + product.word() + "\",\"load\":" + mate.load() + ",\"worn_off\":"
                + String.format(Locale.ROOT, "%.2f", r.wornOff / r.wear) + ",\"km\":" + roads(r.km) + "}"));
        readings.add("{\"tool\":\"calliper\",\"percent\":"
                + String.format(Locale.ROOT, "%.2f", Math.max(0, percent + 0.03 * random.nextGaussian()))
                + ",\"error\":0.05,\"ridden\":" + parts + "}");
        sinceReading = 0;
        readAt = ridden.values().stream().flatMapToInt(r -> IntStream.of(r.km)).sum();
    }

    private void closeChain() {
        if (readAt >= 200) {
            chains.add("{\"rider\":1,\"readings\":[" + readings + "]}");
        }
        ridden.clear();
        sinceReading = 0;
        readings = new StringJoiner(",");
        percent = 0;
    }

    /** Rides with two power meters that are 0.8 % off each other and wander by 0.4 % from ride to ride. */
    private String paired() {
        Random days = new Random(100 + mate.seed());
        List<String> rides = new ArrayList<>();
        for (int i = 0; i < mate.paired(); i++) {
            Product product = mate.products().get(i % 2);
            double used = days.nextInt(11) / 10.0;
            double missing = product.lost() + product.rises() * used + 0.8 + 0.4 * days.nextGaussian();
            rides.add("{\"method\":\"" + product.method() + "\",\"product\":\"" + product.word()
                    + "\",\"cleaning\":\"deep\",\"used\":" + used + ",\"per_mu\":0.15,\"missing\":"
                    + String.format(Locale.ROOT, "%.2f", missing) + ",\"error\":0.09}");
        }
        rides.sort(null);
        return "{\"rider\":1,\"paired\":[" + String.join(",", rides) + "]}";
    }

    private static String roads(int[] km) {
        StringJoiner roads = new StringJoiner(",", "{", "}");
        for (int i = 0; i < km.length; i++) {
            if (km[i] > 0) {
                roads.add("\"" + road(i) + "\":" + km[i]);
            }
        }
        return roads.toString();
    }

    private static String road(int cell) {
        return MOISTURES.get(cell / 3) + "-" + GRITS.get(cell % 3);
    }
}
