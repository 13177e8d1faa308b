/**
 * Weather records that the rider supplies, and the water they leave on a road.
 *
 * <p>Lines of airfield reports ({@link chainage.weather.Metar}) or of an hourly table
 * ({@link chainage.weather.PrecipitationCsv}) go in, {@link chainage.weather.Observation}s come out one by one.
 * {@link chainage.weather.Stations} holds them by station and time; {@link chainage.weather.WaterFilm} answers which
 * share of a ride ran on a wet, damp or dry road, and why. Nothing here knows of files, rides, ledgers or clocks.
 *
 * <p>The code form is that of WMO-No. 306 FM 15 with code table 4678, the remarks are those of the US national practice
 * (FMH-1 chapter 12), humidity follows WMO-No. 8. How a road dries follows a published road-moisture balance
 * ({@link chainage.weather.Vapour})
 * and the sun ({@link chainage.weather.Sun}); what is still our guess of it says so in
 * {@link chainage.weather.FilmParameters}.
 */
@NullMarked
package chainage.weather;

import org.jspecify.annotations.NullMarked;
