-- Every statement of the store, each under its name.

-- @begin-write
begin immediate
-- @begin-read
begin
-- @commit
commit
-- @rollback
rollback
-- @wal
pragma journal_mode = wal
-- @query-only
pragma query_only = on
-- @query-any
pragma query_only = off
-- @identity
select application_id, user_version, (select count(*) from sqlite_schema) from pragma_application_id, pragma_user_version
-- @schema-objects
select type, name, sql from sqlite_schema where sql is not null and name not like 'sqlite!_%' escape '!' order by type, name
-- @copy
vacuum into ?
-- @changes
select total_changes()
-- @stamp
select now from stamp
-- @stamp-renew
update stamp set before = case when length(now) = 16 then now else zeroblob(16) end, now = randomblob(16)
-- @integrity
pragma integrity_check(20)
-- @foreign-keys
pragma foreign_key_check

-- @entries
select number, command, recorded, kind, payload, sum from entry order by number
-- @entry-rows
select number || ' ' || recorded || ' ' || kind || ' ' || payload from entry
-- @ride-names
select id from ride
-- @rides-latest
select id, start, metres from ride order by start desc limit ?
-- @extent
select entries, rides from extent
-- @extent-raise
-- A count that the disk has made smaller would refuse every fact, an undo among them.
update extent set entries = (select max(number) from entry where number <= (select count(*) from entry))
where exists (select 1 from entry where number = extent.entries + 1)
-- @entry-insert
insert into entry (number, command, recorded, kind, payload, sum) values (?, ?, ?, ?, ?, ?)

-- @content-insert
-- A verdict that hung on the clock gives way to one that does no longer, or on another date.
insert into content (digest, outcome, reason, mend, ahead, sum) values (?, ?, ?, ?, ?, ?)
on conflict (digest) do update set
    outcome = excluded.outcome, reason = excluded.reason, mend = excluded.mend, ahead = excluded.ahead, sum = excluded.sum
where content.ahead is not null and content.ahead is not excluded.ahead
    or content.sum is not row_sum(content.digest, content.outcome, content.reason, content.mend, content.ahead)
-- @content-overtaken
select id from content where digest = ?1 and ahead is not null and ahead is not ?2
-- @sources-drop-content
delete from source where content = ?
-- @contents
select digest, outcome, reason, mend, ahead, sum from content

-- @ride-insert
-- What is there stays, but for what is not as it was written.
insert into ride (content, session, id, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind,
                  indoor, ascent, celsius, watts, median_speed, samples, evidence, pedalling, sum)
select content.id, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?21
from content where content.digest = ?20
on conflict (content, session) do update set
    id = excluded.id, format = excluded.format, start = excluded.start, elapsed = excluded.elapsed,
    moving = excluded.moving, metres = excluded.metres, metres_from = excluded.metres_from, sport = excluded.sport,
    sub_sport = excluded.sub_sport, kind = excluded.kind, indoor = excluded.indoor, ascent = excluded.ascent,
    celsius = excluded.celsius, watts = excluded.watts, median_speed = excluded.median_speed,
    samples = excluded.samples, evidence = excluded.evidence, pedalling = excluded.pedalling, sum = excluded.sum
where ride.sum is not row_sum(
    ride.session, ride.id, ride.format, ride.start, ride.elapsed, ride.moving, ride.metres, ride.metres_from, ride.sport,
    ride.sub_sport, ride.kind, ride.indoor, ride.ascent, ride.celsius, ride.watts, ride.median_speed, ride.samples,
    ride.evidence, ride.pedalling, ?20)
-- @rides
select ride.id, ride.number as number, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor, ascent, celsius,
       watts, median_speed, samples, evidence, pedalling, ride.sum as sum, digest, content
from ride join content on content.id = ride.content
order by ride.number

-- @power-insert
-- What is there stays, but for what is not as it was written.
insert into power (ride, minutes, sum)
select ride.number, ?2, ?4
from ride join content on content.id = ride.content
where ride.session = ?1 and content.digest = ?3
on conflict (ride) do update set minutes = excluded.minutes, sum = excluded.sum
where power.sum is not row_sum(?1, power.minutes, ?3)
-- @power-of
select ride.number as number, ride.id as id, ride.session as session, minutes, power.sum as sum, digest
from power join ride on ride.number = power.ride join content on content.id = ride.content
where power.ride in (select value from json_each(?))
-- @powers
select ride.id as id, ride.session as session, minutes, power.sum as sum, digest
from power join ride on ride.number = power.ride join content on content.id = ride.content
order by digest, session

-- @starts
select start, content from ride order by number
-- @rides-of-content
select ride.id as id, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling, ride.sum as sum, digest
from ride join content on content.id = ride.content
where content = ?
order by session

-- @place-insert
insert into place (content, path, sum)
select content.id, ?1, ?3 from content
where content.digest = ?2 and exists (select 1 from ride where ride.content = content.id)
on conflict (content, path) do update set sum = excluded.sum where place.sum is not excluded.sum
-- @places
-- One whose content is not there has no digest, and so not the sum that it was written with.
select path, digest, place.sum as sum, content
from place left join content on content.id = place.content order by content, path

-- @source-upsert
-- A content that is known from this very path keeps the verdict it had there.
insert into source (path, size, modified, content, outcome, reason, mend, refused_parts)
values (?, ?, ?, (select id from content where digest = ?), ?, ?, ?, ?)
on conflict (path) do update set
    size = excluded.size, modified = excluded.modified, content = excluded.content,
    outcome = iif(excluded.outcome = 'known' and excluded.content = content, outcome, excluded.outcome),
    reason = iif(excluded.outcome = 'known' and excluded.content = content, reason, excluded.reason),
    mend = iif(excluded.outcome = 'known' and excluded.content = content, mend, excluded.mend),
    refused_parts = iif(excluded.outcome = 'known' and excluded.content = content, refused_parts, excluded.refused_parts)
-- @source-sum
update source set sum = row_sum(
    path, size, modified, (select digest from content where content.id = source.content), outcome, reason, mend,
    refused_parts)
where path = ?
-- @source-drop-stale-entries
-- Entries of an archive carry its own time of change; "!0" is the first text after all that start with "!/".
delete from source where path > ?1 || '!/' and path < ?1 || '!0' and modified <> ?2
-- @sources
select path, size, modified, digest, source.outcome as outcome, source.reason as reason, source.mend as mend, refused_parts,
       source.sum as sum
from source left join content on content.id = source.content
-- @sources-refused
select path, size, modified, digest, source.outcome as outcome, source.reason as reason, source.mend as mend, refused_parts,
       source.sum as sum
from source left join content on content.id = source.content
where source.outcome = 'refused' or refused_parts > 0
order by path

-- @observation-insert
-- Left out where the same is known from an entry in force; a different one is taken, and counts from then on.
insert or replace into observation (station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud,
                                    sum)
select ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?13
where not exists (
    select 1 from observation
    where station = ?1 and place = ?3 and at = ?2 and seconds = ?5 and mm_an_hour is ?6 and seen = ?7
          and celsius is ?8 and humidity is ?9 and wind is ?10 and cloud is ?11
          and entry in (select value from json_each(?12))
          and sum is row_sum(station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud))
-- @observations
select station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud, sum from observation
where at between ?1 and ?2
order by entry, at
-- @export-contents
select digest, outcome, reason, mend, ahead, sum from content order by digest
-- @export-content-insert
-- As when a file is imported, but only where no ride is there that another verdict has left.
insert into content (digest, outcome, reason, mend, ahead, sum) values (?, ?, ?, ?, ?, ?)
on conflict (digest) do update set
    outcome = excluded.outcome, reason = excluded.reason, mend = excluded.mend, ahead = excluded.ahead, sum = excluded.sum
where content.ahead is not null and not exists (select 1 from ride where ride.content = content.id)
-- @export-rides
select ride.id as id, digest, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling, ride.sum as sum
from content join ride on ride.content = content.id
where ride.number not in (
    select number from (select number, row_number() over (partition by id order by number) as nth from ride) where nth > 1)
order by digest, session
-- @export-rides-alike
-- Those whose id an earlier ride has too: which came first says what facts mean, and so must the export.
select ride.id as id, digest, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling, ride.sum as sum
from content join ride on ride.content = content.id
where ride.number in (
    select number from (select number, row_number() over (partition by id order by number) as nth from ride) where nth > 1)
order by ride.number
-- @rides-alike
select ride.id as id, digest, session
from content join ride on ride.content = content.id
where ride.id in (select id from ride group by id having count(*) > 1)
order by ride.number
-- @export-places
select path, digest, place.sum as sum
from content join place on place.content = content.id order by digest, path
-- @export-sources
select path, size, modified, digest, source.outcome as outcome, source.reason as reason, source.mend as mend, refused_parts,
       source.sum as sum
from source left join content on content.id = source.content
order by path
-- @entry-by-number
select kind, payload from entry where number = ?
-- @ride-by-key
select ride.id as id, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling, ride.sum as sum, digest
from ride join content on content.id = ride.content
where digest = ? and session = ?
-- @export-ride-insert
insert into ride (content, session, id, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind,
                  indoor, ascent, celsius, watts, median_speed, samples, evidence, pedalling, sum)
select content.id, ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?21
from content where content.digest = ?20
-- @export-source-insert
insert into source (path, size, modified, content, outcome, reason, mend, refused_parts, sum)
values (?, ?, ?, (select id from content where digest = ?), ?, ?, ?, ?, ?)
on conflict (path) do nothing
-- @export-observations
select station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud, sum
from observation order by entry, station, place, at
-- @export-observation-insert
insert into observation (station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud, sum)
values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
-- @check-rides
select ride.id as id, number, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind,
       indoor, ascent, celsius, watts, median_speed, samples, evidence, pedalling, ride.sum as sum, digest, content
from ride join content on content.id = ride.content
order by number
