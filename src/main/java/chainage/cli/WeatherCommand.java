package chainage.cli;

import chainage.answer.things.WeatherList;
import chainage.command.Question;
import chainage.render.Answer;
import chainage.render.Columns;
import java.util.List;
import picocli.CommandLine.Command;

@Command(
        name = "weather",
        description =
                "List the weather records you brought in, or add some: what fell, where and when, tells which rides"
                        + " were wet.",
        subcommands = WeatherAddCommand.class,
        footer = {
            "Examples:",
            "  chainage weather",
            "  chainage weather add metar-2026-03.txt --station 38.70,-9.15",
            "",
            "Where to get records: airfields publish reports (METAR) and archives of them; many national weather services"
                    + " give away hourly tables of rain and temperature. A station within 40 km counts for a ride."
        })
final class WeatherCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(WeatherList.LIST.fields());
    }

    @Override
    public Answer answer() {
        return WeatherList.of(context().ledger(), context().format());
    }
}
