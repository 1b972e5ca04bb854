//! Times as platforms tell them.

/// Minutes and seconds of a time by ISO 8601, `2026-11-29 14:05` or `2026-11-29T14:05:30Z`, in seconds from the year 0; and
/// whether it says its zone. A fraction of a second counts.
pub(super) fn seconds(text: &str) -> Option<(f64, bool)> {
    let text = text.trim();
    let (date, time) = text.split_once(['T', 't', ' '])?;
    let [year, month, day] = three(date, '-')?;
    if !(1..=12).contains(&month) || !(1..=31).contains(&day) || date.len() != 10 {
        return None;
    }
    let time = time.trim();
    let zone_at = time.find(['Z', 'z', '+', '-']).unwrap_or(time.len());
    let (clock, zone) = time.split_at_checked(zone_at)?;
    let mut pieces = clock.trim().split(':');
    let hour = whole(pieces.next()?).filter(|hour| *hour <= 24)?;
    let minute = whole(pieces.next()?).filter(|minute| *minute < 60)?;
    let second: f64 = match pieces.next() {
        None => 0.0,
        Some(second) if second.starts_with(|c: char| c.is_ascii_digit()) => second.parse().ok()?,
        Some(_) => return None,
    };
    if pieces.next().is_some() || !(0.0..=60.0).contains(&second) {
        return None;
    }
    let offset = match zone {
        "" => None,
        "Z" | "z" => Some(0),
        zone => {
            let (sign, rest) = zone.split_at_checked(1)?;
            let plain: String = rest.chars().filter(|c| *c != ':').collect();
            let plain = whole(&plain).filter(|_| plain.len() == 4)?;
            let minutes = plain / 100 * 60 + plain % 100;
            Some(if sign == "-" { -minutes } else { minutes })
        }
    };
    let minutes = days(year, month, day) * 1440 + hour * 60 + minute - offset.unwrap_or(0);
    Some((minutes as f64 * 60.0 + second, offset.is_some()))
}

fn whole(text: &str) -> Option<i64> {
    let text = text.trim();
    let digits = (1..=4).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    if digits { text.parse().ok() } else { None }
}

fn three(text: &str, separator: char) -> Option<[i64; 3]> {
    let mut pieces = text.split(separator);
    let three = [whole(pieces.next()?)?, whole(pieces.next()?)?, whole(pieces.next()?)?];
    pieces.next().is_none().then_some(three)
}

/// Days of the Gregorian calendar, counted from the first of March of the year 0: years that begin in March have their leap
/// day at the end.
fn days(year: i64, month: i64, day: i64) -> i64 {
    let (year, month) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
    let leaps = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
    // 153 days in five months from March on and from August on: 31, 30, 31, 30, 31.
    365 * year + leaps + (153 * month + 2) / 5 + day - 1
}
