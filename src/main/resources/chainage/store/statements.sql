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
update stamp set before = now, now = randomblob(16)
-- @integrity
pragma integrity_check(20)
-- @foreign-keys
pragma foreign_key_check

-- @entries
select number, command, recorded, kind, payload from entry order by number
-- @entry-rows
select number || ' ' || recorded || ' ' || kind || ' ' || payload from entry
-- @ride-names
select id from ride
-- @last-entry
select coalesce(max(number), 0) from entry
-- @entry-insert
insert into entry (number, command, recorded, kind, payload) values (?, ?, ?, ?, ?)

-- @content-insert
-- A verdict that hung on the clock gives way to one that does no longer, or on another date.
insert into content (digest, outcome, reason, mend, ahead) values (?, ?, ?, ?, ?)
on conflict (digest) do update set
    outcome = excluded.outcome, reason = excluded.reason, mend = excluded.mend, ahead = excluded.ahead
where content.ahead is not null and content.ahead is not excluded.ahead
-- @content-overtaken
select id from content where digest = ?1 and ahead is not null and ahead is not ?2
-- @sources-drop-content
delete from source where content = ?
-- @contents
select digest, outcome, reason, mend, ahead from content

-- @ride-insert
insert into ride (content, session, id, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind,
                  indoor, ascent, celsius, watts, median_speed, samples, evidence, pedalling)
select content.id, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ? from content where content.digest = ?
on conflict (content, session) do nothing
-- @rides
select ride.id, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor, ascent, celsius,
       watts, median_speed, samples, evidence, pedalling, digest, content
from ride join content on content.id = ride.content
order by ride.number

-- @starts
select start, content from ride order by number
-- @rides-of-content
select ride.id as id, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling, digest
from ride join content on content.id = ride.content
where content = ?
order by session

-- @place-insert
insert into place (content, path)
select content.id, ?1 from content
where content.digest = ?2 and exists (select 1 from ride where ride.content = content.id)
on conflict (content, path) do nothing
-- @places
select content, path from place order by content, path

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
-- @source-drop-stale-entries
-- Entries of an archive carry its own time of change; "!0" is the first text after all that start with "!/".
delete from source where path > ?1 || '!/' and path < ?1 || '!0' and modified <> ?2
-- @sources
select path, size, modified, digest, source.outcome, source.reason, source.mend, refused_parts
from source left join content on content.id = source.content
-- @sources-refused
select path, size, modified, digest, source.outcome, source.reason, source.mend, refused_parts
from source left join content on content.id = source.content
where source.outcome = 'refused' or refused_parts > 0
order by path

-- @observation-insert
-- Left out where the same is known from an entry in force; a different one is taken, and counts from then on.
insert or replace into observation (station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud)
select ?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11
where not exists (
    select 1 from observation
    where station = ?1 and place = ?3 and at = ?2 and seconds = ?5 and mm_an_hour is ?6 and seen = ?7
          and celsius is ?8 and humidity is ?9 and wind is ?10 and cloud is ?11
          and entry in (select value from json_each(?12)))
-- @observations
select station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud from observation
where at between ?1 and ?2
order by entry, at
-- @export-contents
select digest, outcome, reason, mend, ahead from content order by digest
-- @export-content-insert
-- As when a file is imported, but only where no ride is there that another verdict has left.
insert into content (digest, outcome, reason, mend, ahead) values (?, ?, ?, ?, ?)
on conflict (digest) do update set
    outcome = excluded.outcome, reason = excluded.reason, mend = excluded.mend, ahead = excluded.ahead
where content.ahead is not null and not exists (select 1 from ride where ride.content = content.id)
-- @export-rides
select ride.id as id, digest, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling
from content join ride on ride.content = content.id
where ride.number not in (
    select number from (select number, row_number() over (partition by id order by number) as nth from ride) where nth > 1)
order by digest, session
-- @export-rides-alike
-- Those whose id an earlier ride has too: which came first says what facts mean, and so must the export.
select ride.id as id, digest, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling
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
select path, digest from content join place on place.content = content.id order by digest, path
-- @export-sources
select path, size, modified, digest, source.outcome, source.reason, source.mend, refused_parts
from source left join content on content.id = source.content
order by path
-- @entry-by-number
select kind, payload from entry where number = ?
-- @ride-by-key
select ride.id as id, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor,
       ascent, celsius, watts, median_speed, samples, evidence, pedalling, digest
from ride join content on content.id = ride.content
where digest = ? and session = ?
-- @export-ride-insert
insert into ride (content, session, id, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind,
                  indoor, ascent, celsius, watts, median_speed, samples, evidence, pedalling)
select content.id, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ? from content where content.digest = ?
-- @export-source-insert
insert into source (path, size, modified, content, outcome, reason, mend, refused_parts)
values (?, ?, ?, (select id from content where digest = ?), ?, ?, ?, ?)
on conflict (path) do nothing
-- @export-observations
select entry, station, at, place, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud
from observation order by entry, station, place, at
-- @export-observation-insert
insert into observation (station, at, entry, place, seconds, mm_an_hour, seen, celsius, humidity, wind, cloud)
values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
-- @check-rides
select ride.id as id, number, session, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind,
       indoor, ascent, celsius, watts, median_speed, samples, evidence, pedalling, digest, content
from ride join content on content.id = ride.content
order by number
