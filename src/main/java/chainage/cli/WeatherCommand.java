package chainage.cli;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.render.Json;
import chainage.render.Table;
import java.util.ArrayList;
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
                    + " give away hourly tables of rain and temperature. A station within 40 km speaks for a ride."
        })
final class WeatherCommand extends Action {
    @Override
    public Integer call() {
        CommandContext context = context();
        List<Json> list = new ArrayList<>();
        Table table = new Table()
                .right("NO")
                .left("FILE")
                .left("STATIONS")
                .right("RECORDS")
                .whole("FROM")
                .whole("TO");
        for (Entry e : context.ledger().inForce()) {
            if (e.event() instanceof Event.WeatherAdded w) {
                String stations =
                        w.stations().size() > 3 ? w.stations().size() + " stations" : String.join(", ", w.stations());
                table.row(
                        Long.toString(e.number()),
                        w.source(),
                        stations.isEmpty() ? "–" : stations,
                        Long.toString(w.observations()),
                        context.format().date(w.from()),
                        context.format().date(w.to()));
                list.add(new Json()
                        .put("entry", e.number())
                        .put("source", w.source())
                        .put("stations", w.stations())
                        .put("observations", w.observations())
                        .put("from", w.from())
                        .put("to", w.to()));
            }
        }
        return context.list(
                "weather",
                list,
                table,
                "no weather records yet; bring some in: chainage weather add FILE --station LAT,LON");
    }
}
