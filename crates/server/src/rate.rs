//! How often somebody may ask: a bucket of tokens each, filled at a steady rate.
//!
//! A program gone wild on one device must not keep the others waiting.

use crate::site::Limits;
use std::collections::BTreeMap;
use std::net::IpAddr;
use std::time::{Duration, Instant};

/// Buckets kept; the fullest go first.
const KEPT: usize = 10_000;

/// Who asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Who {
    /// A paired device, by number.
    Device(i64),
    /// Somebody unknown, by network address.
    Address(IpAddr),
}

impl Who {
    /// An address as one party: a household of IPv6 has 2^64 of them.
    pub(crate) fn at(address: IpAddr) -> Self {
        match address.to_canonical() {
            IpAddr::V6(address) => {
                let network = u128::from(address) & !u128::from(u64::MAX);
                Who::Address(IpAddr::V6(network.into()))
            }
            address => Who::Address(address),
        }
    }
}

#[derive(Debug, Clone, Copy)]
struct Bucket {
    tokens: f64,
    at: Instant,
}

/// The buckets of everybody.
#[derive(Debug, Default)]
pub(crate) struct Rates(BTreeMap<Who, Bucket>);

impl Rates {
    /// Takes a token at `now`; how long to wait for one when there is none.
    pub(crate) fn take(&mut self, who: Who, now: Instant, limits: &Limits) -> Result<(), Duration> {
        if self.0.len() >= KEPT {
            let full = |bucket: &Bucket| refilled(bucket, now, limits) >= limits.burst;
            self.0.retain(|_, bucket| !full(bucket));
        }
        let bucket = self.0.entry(who).or_insert(Bucket { tokens: limits.burst, at: now });
        let tokens = refilled(bucket, now, limits);
        let paid = tokens >= 1.0;
        *bucket = Bucket { tokens: if paid { tokens - 1.0 } else { tokens }, at: now };
        if paid { Ok(()) } else { Err(Duration::from_secs_f64((1.0 - tokens) / limits.rate)) }
    }
}

fn refilled(bucket: &Bucket, now: Instant, limits: &Limits) -> f64 {
    let passed = now.saturating_duration_since(bucket.at).as_secs_f64();
    (bucket.tokens + passed * limits.rate).min(limits.burst)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits() -> Limits {
        Limits { rate: 2.0, burst: 3.0, ..Limits::default() }
    }

    /// Three at once, then one every half second.
    #[test]
    fn a_burst_and_then_a_steady_rate() {
        let (mut rates, start, limits) = (Rates::default(), Instant::now(), limits());
        let mut take = |after_ms: u64| {
            rates
                .take(Who::Device(1), start + Duration::from_millis(after_ms), &limits)
                .map_err(|wait| wait.as_millis())
        };
        assert_eq!([take(0), take(0), take(0)], [Ok(()); 3]);
        assert_eq!(take(0), Err(500));
        assert_eq!(take(250), Err(250));
        assert_eq!(take(500), Ok(()));
        assert_eq!(take(500), Err(500));
        assert_eq!([take(60_000), take(60_000), take(60_000)], [Ok(()); 3]);
        assert_eq!(take(60_000), Err(500));
    }

    #[test]
    fn one_who_asks_too_often_does_not_slow_another() {
        let (mut rates, now, limits) = (Rates::default(), Instant::now(), limits());
        while rates.take(Who::Device(1), now, &limits).is_ok() {}
        assert_eq!(rates.take(Who::Device(2), now, &limits), Ok(()));
    }

    #[test]
    fn addresses_of_one_household_are_one() {
        let at = |text: &str| Who::at(text.parse().expect("an address"));
        assert_eq!(at("2001:db8::1"), at("2001:db8::ffff:2"));
        assert_ne!(at("2001:db8::1"), at("2001:db8:0:1::1"));
        assert_eq!(at("::ffff:192.0.2.7"), at("192.0.2.7"));
        assert_ne!(at("192.0.2.7"), at("192.0.2.8"));
    }
}
