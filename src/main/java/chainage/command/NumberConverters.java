package chainage.command;

import chainage.typed.Alike;
import chainage.typed.CliError;
import chainage.typed.TypedNumber;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Numbers of options and parameters, read as {@link TypedNumber} reads them. */
public final class NumberConverters {
    private NumberConverters() {}

    /** Has the parser read numbers so. */
    public static void teach(CommandLine line) {
        line.registerConverter(double.class, new Decimal());
        line.registerConverter(Double.class, new Decimal());
        line.registerConverter(int.class, new Whole());
        line.registerConverter(Integer.class, new Whole());
        line.registerConverter(Long.class, new Entry());
    }

    /** For the parser. */
    static final class Decimal implements ITypeConverter<Double> {
        @Override
        public Double convert(String value) {
            try {
                return TypedNumber.of(value);
            } catch (NumberFormatException e) {
                throw new TypeConversionException("\"" + value + "\" is no number");
            } catch (CliError e) {
                throw new TypeConversionException(e.getMessage());
            }
        }
    }

    private static String noWhole(String value) {
        String figures = value.strip().replaceFirst("^(\\d+) ?\\p{L}+$", "$1");
        return "\"" + value + "\" is no whole number"
                + (figures.equals(value.strip()) ? "" : "; " + Alike.question(List.of(figures)));
    }

    /** For the parser. */
    static final class Whole implements ITypeConverter<Integer> {
        @Override
        public Integer convert(String value) {
            try {
                return Integer.valueOf(value);
            } catch (NumberFormatException e) {
                throw new TypeConversionException(noWhole(value));
            }
        }
    }

    /** For the parser: numbers of entries. */
    static final class Entry implements ITypeConverter<Long> {
        @Override
        public Long convert(String value) {
            try {
                return Long.valueOf(value);
            } catch (NumberFormatException e) {
                throw new TypeConversionException(noWhole(value));
            }
        }
    }
}
