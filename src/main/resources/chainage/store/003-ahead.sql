-- Version 3. A verdict can hang on this computer's clock: a date ahead of it is refused as a wrong one. The earliest such
-- date is kept with the content, so that it is tried again once the clock says otherwise.
alter table content add column ahead integer;  -- milliseconds since 1970 UTC; null: nothing hung on the clock

-- Verdicts of earlier versions told the date in words alone. A wrong guess here costs one more reading of a file.
update content
set ahead = 1000 * unixepoch(substr(
        substr(reason, instr(reason, ' dated ') + 7), 1, instr(substr(reason, instr(reason, ' dated ') + 7), ',') - 1))
where reason like '% dated %, a clock that was not set%';

pragma user_version = 3;
