-- Version 6. Each row carries the sum of its content (RowSum), so that a bit which turns on the disk shows when the row is
-- read. What is sound stays as it is; what is not may be written anew.
alter table entry add column sum integer not null default 0;
alter table content add column sum integer not null default 0;
alter table ride add column sum integer not null default 0;
alter table place add column sum integer not null default 0;
alter table source add column sum integer not null default 0;
alter table observation add column sum integer not null default 0;

drop trigger entry_is_not_changed;
update entry set sum = row_sum(number, command, recorded, kind, payload);
create trigger entry_is_not_changed before update on entry
begin
    select raise(abort, 'entries are append-only');
end;

update content set sum = row_sum(digest, outcome, reason, mend, ahead);

drop trigger ride_is_not_changed;
update ride set sum = row_sum(
    session, id, format, start, elapsed, moving, metres, metres_from, sport, sub_sport, kind, indoor, ascent, celsius,
    watts, median_speed, samples, evidence, pedalling, (select digest from content where content.id = ride.content));
create trigger ride_is_not_changed before update on ride
when old.sum is row_sum(
    old.session, old.id, old.format, old.start, old.elapsed, old.moving, old.metres, old.metres_from, old.sport,
    old.sub_sport, old.kind, old.indoor, old.ascent, old.celsius, old.watts, old.median_speed, old.samples, old.evidence,
    old.pedalling, (select digest from content where content.id = old.content))
begin
    select raise(abort, 'rides are append-only');
end;

drop trigger place_is_not_changed;
update place set sum = row_sum(path, (select digest from content where content.id = place.content));
create trigger place_is_not_changed before update on place
when old.sum is row_sum(old.path, (select digest from content where content.id = old.content))
begin
    select raise(abort, 'places are append-only');
end;

update source set sum = row_sum(
    path, size, modified, (select digest from content where content.id = source.content), outcome, reason, mend,
    refused_parts);

drop trigger observation_is_not_changed;
update observation set sum = row_sum(station, at, place, entry, seconds, mm_an_hour, seen, celsius, humidity, wind,
    cloud);
create trigger observation_is_not_changed before update on observation
begin
    select raise(abort, 'observations are append-only');
end;

-- How far the facts and the rides go, so that one which is gone shows, also the last.
create table extent (
    one     integer primary key check (one = 1),
    entries integer not null,  -- number of the last entry
    rides   integer not null   -- how many there are
) strict;

insert into extent values (1, (select coalesce(max(number), 0) from entry), (select count(*) from ride));

drop trigger entry_numbers_run_on;
create trigger entry_numbers_run_on before insert on entry
when new.number is not (select entries + 1 from extent)
begin
    select raise(abort, 'entry numbers must run on without a gap');
end;

create trigger entry_extends after insert on entry
begin
    update extent set entries = new.number;
end;

create trigger ride_extends after insert on ride
begin
    update extent set rides = rides + 1;
end;

pragma user_version = 6;
