-- Version 7. Power by the minute, apart from the ride: only rides that overlap another are asked for it, and files
-- imported before can be read once more to bring it.
create table power (
    ride    integer primary key references ride (number),
    minutes blob    not null,  -- PackedPower
    sum     integer not null   -- RowSum of session, minutes and the content's digest
) strict;

create trigger power_is_not_changed before update on power
when old.sum is (
    select row_sum(ride.session, old.minutes, content.digest)
    from ride join content on content.id = ride.content where ride.number = old.ride)
begin
    select raise(abort, 'rides are append-only');
end;

create trigger power_is_not_deleted before delete on power
begin
    select raise(abort, 'rides are append-only');
end;

pragma user_version = 7;
