package chainage.bench;

import chainage.quantity.ContentDigest;
import chainage.quantity.Decimals;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import java.time.Instant;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * What an import does over and over, warm, under the flags that the program starts with: a two-hour ride of each format
 * from bytes to facts, and beside each the least that has to be done with the same bytes.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(value = 1, jvmArgs = {"-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"})
public class InnerLoops {
    private static final Instant LATEST = Instant.parse("2027-01-01T00:00:00Z");
    private static final int TWO_HOURS = 7_200;

    private byte[] fit = {};
    private byte[] gpx = {};
    private byte[] tcx = {};
    private final String[] numbers = new String[1000];

    /** Makes the rides and the texts. */
    @Setup
    public void make() {
        fit = RideMaker.ride(1, 0, TWO_HOURS);
        gpx = XmlRideMaker.gpx(1, 0, TWO_HOURS);
        tcx = XmlRideMaker.tcx(1, 0, TWO_HOURS);
        Random random = new Random(1);
        for (int i = 0; i < numbers.length; i++) {
            numbers[i] = String.format(Locale.ROOT, "%.6f", random.nextDouble() * 180 - 90);
        }
    }

    /** A FIT ride. */
    @Benchmark
    public Decoded fitRide() throws RideFileException {
        return RideFiles.decode(fit, LATEST);
    }

    /** Its digest alone. */
    @Benchmark
    public ContentDigest fitDigest() {
        return ContentDigest.of(fit);
    }

    /** Its CRC alone, byte by byte. */
    @Benchmark
    public int fitCrc() {
        return CrcOfFolder.crc(fit, fit.length);
    }

    /** A GPX ride. */
    @Benchmark
    public Decoded gpxRide() throws RideFileException {
        return RideFiles.decode(gpx, LATEST);
    }

    /** All its events and numbers by the JDK's own means. */
    @Benchmark
    public long gpxPull() throws Exception {
        return StaxOfFolder.numbers(gpx);
    }

    /** A TCX ride. */
    @Benchmark
    public Decoded tcxRide() throws RideFileException {
        return RideFiles.decode(tcx, LATEST);
    }

    /** All its events and numbers by the JDK's own means. */
    @Benchmark
    public long tcxPull() throws Exception {
        return StaxOfFolder.numbers(tcx);
    }

    /** A thousand numbers. */
    @Benchmark
    public double decimals() {
        double sum = 0;
        for (String n : numbers) {
            sum += Decimals.of(n);
        }
        return sum;
    }

    /** The same by the JDK. */
    @Benchmark
    public double decimalsOfTheJdk() {
        double sum = 0;
        for (String n : numbers) {
            sum += Double.parseDouble(n);
        }
        return sum;
    }
}
